"""Which body the moving figures have on this device: the coach names one, whoever trains may choose another."""
from __future__ import annotations

import json

from app.actions.files.pack_media import pack_shelf, picture_of
from app.actions.people import current_person
from app.domain.figure.drawing.dressed import dressed
from app.domain.figure.drawing.picture import Picture
from app.domain.model.exercise import Exercise
from app.domain.model.figure_body import FigureBody
from app.storage import packs, settings
from app.storage.database import Store

BODY = "figure_body"
"""Name of the setting."""


def chosen_body(store: Store) -> FigureBody | None:
    """What was chosen here; None: the coach's."""
    with store.read() as db:
        chosen = settings.setting(db, BODY, "")
    return FigureBody(chosen) if chosen in set(FigureBody) else None


def choose_body(store: Store, body: FigureBody | None) -> None:
    """From now on."""
    with store.begin() as db:
        settings.save_setting(db, BODY, body.value if body else "")


def coachs_body(store: Store, pack: str) -> FigureBody:
    """The one that the pack names; as figures are drawn where it names none. `pack`: its SHA-256, hex."""
    return store.read_once.value("figure_body", pack, lambda: _named(store, pack), most=4)


def _named(store: Store, pack: str) -> FigureBody:
    from app.exchange.forms.content import CONTENT

    shelf = pack_shelf(store, pack)
    content = shelf.read(CONTENT) if shelf else None
    named = json.loads(content)["source"].get("body") if content else None
    return FigureBody(named) if named in set(FigureBody) else FigureBody.SILVER


def figure_of(store: Store, pack: str, exercise: Exercise, body: FigureBody | None = None) -> Picture | None:
    """The figure of an exercise with the body that is shown here, or with another one; None where there is none."""
    picture = picture_of(store, pack, exercise)
    return picture and dressed(picture, body or chosen_body(store) or coachs_body(store, pack))


def model(store: Store) -> tuple[str, Exercise] | None:
    """A pack, and an exercise in it that has a figure, to show the bodies with; None as long as nobody follows one."""
    person = current_person(store)
    with store.read() as db:
        pack = packs.newest_pack(db, person.coach_key) if person and person.coach_key else None
    drawn = (one for one in pack.source.exercises if picture_of(store, pack.sha256, one)) if pack else iter(())
    first = next(drawn, None)
    return (pack.sha256, first) if pack and first else None
