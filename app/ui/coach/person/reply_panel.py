"""A stop that waits for a yes, and a message back: words, limits and a recorded yes, sealed to the person."""
from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

import flet as ft

from app.actions.desk import replying
from app.actions.desk.replying import ReplyDraft, Written
from app.domain.dosing.way_back import Stop
from app.domain.model.body import Spot, parse_spot
from app.domain.model.client import AxisLimit
from app.domain.model.exercise import Axis
from app.ui.coach.person.axis_limit_panel import AxisLimitPanel
from app.ui.coach.person.limit_panel import LimitPanel
from app.ui.coach.person.messages_panel import sealed_messages
from app.ui.coach.person.person_sheet import Sheet
from app.ui.coach.person.station_panel import AS_BEFORE, StationPanel, Stations
from app.ui.coach.stable_field import Typed, typed_field, use_typed
from app.ui.parts import AnswerOption, Card, Look, bind
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words.coach import reply as words


@dataclass(frozen=True)
class _Draft:
    """What is chosen in the form. `spare` None: the limits sent before stay."""

    with_yes: bool = False
    kind: str = ""
    spare: Mapping[Spot, int] | None = field(default=None, hash=False)
    told: tuple[AxisLimit, ...] | None = None
    """Limits on single axes; None: those sent before stay."""
    stations: Stations = AS_BEFORE


SetDraft = Callable[[_Draft | None], object]


@dataclass(frozen=True)
class _Texts:
    """What is typed in the form."""

    message: Typed
    who: Typed


@dataclass(frozen=True)
class _Panel:
    """The form, while it is open, and the message sealed last."""

    draft: _Draft | None = None
    written: Written | None = None


def spare_sent(sheet: Sheet) -> dict[Spot, int]:
    """The coach's limits as last sent."""
    lists = (r.content["spare"] for r in reversed(sheet.sent) if r.content.get("spare") is not None)
    sent: Mapping[str, int] = next(lists, {})
    return {parse_spot(spot): int(cap) for spot, cap in sent.items()}


def told_sent(sheet: Sheet) -> tuple[AxisLimit, ...]:
    """The coach's limits on single axes as last sent."""
    lists = (r.content["limits_told"] for r in reversed(sheet.sent) if r.content.get("limits_told") is not None)
    sent: Sequence[Mapping[str, str]] = next(lists, ())
    return tuple(AxisLimit(Axis(one["axis"]), int(one["at_most"]), str(one["said_by"]),
                           date.fromisoformat(one["until"]) if one.get("until") else None) for one in sent)


@ft.component
def ReplyPanel(shell: Shell, sheet: Sheet, on_sent: Callable[..., object]) -> ft.Control:
    """The stop, if one is open; the form, if it is asked for; what was sealed and sent."""
    c = shell.card()
    panel, set_panel = ft.use_state(_Panel())
    texts = _Texts(use_typed(), use_typed())
    draft, stop = panel.draft, sheet.stop

    def set_draft(changed: _Draft | None) -> None:
        set_panel(replace(panel, draft=changed))

    async def seal(_: object) -> None:
        now = draft or _Draft()
        who, kind = (texts.who.words, now.kind) if now.with_yes else ("", "")
        told = now.told if now.told is not None else ()
        answer = ReplyDraft(texts.message.words, now.spare, None if now.told is None else {}, told, now.stations.swaps,
                            now.stations.held, who, kind)
        set_panel(_Panel(None, await replying.write(shell.store, shell.clock, sheet.person.id, answer)))
        texts.message.words = texts.who.words = ""
        on_sent(None)

    pieces: list[ft.Control] = []
    if stop is not None:
        pieces.append(_stop(shell, c, sheet, stop))
    if sheet.pinned is None:
        return c.stack([*pieces, c.note(words.NO_KEY)], t.GAP)
    if panel.written is not None:
        pieces.append(_written(shell, c, sheet, panel.written))
    if draft is None:
        acts = [c.button(words.REPLY_OPEN, bind(set_draft, _Draft()), icon=ft.Icons.MAIL_SHARP)]
        if stop is not None and sheet.yes_sent is None:
            acts.append(c.button(words.YES_OPEN, bind(set_draft, _Draft(with_yes=True))))
        pieces.append(c.side_by_side(acts))
    else:
        pieces.append(_form(shell, c, sheet, draft, texts, set_draft, safe(shell, seal)))
    if sheet.sent:
        pieces.append(sealed_messages(shell, c, sheet, on_sent))
    return c.stack(pieces, t.GAP)


def _stop(shell: Shell, c: Card, sheet: Sheet, stop: Stop) -> ft.Control:
    day = shell.clock.local(stop.utc).day
    says = [c.subhead(words.STOP_HEAD, level=2), c.body(words.stop_line(stop, day)), c.body(words.stop_needs(stop))]
    sent = sheet.yes_sent
    if sent is not None:
        told = sent.content["clearance"]
        says.append(c.strong(words.yes_on_its_way(told["who"], told["kind"], sent.number)))
    return c.harm_box(c.stack(says, 6))


def _form(shell: Shell, c: Card, sheet: Sheet, draft: _Draft, texts: _Texts, set_draft: SetDraft,
          seal: Callable[..., object]) -> ft.Control:
    pieces: list[ft.Control] = [c.head(words.REPLY_HEAD)]
    if draft.with_yes and sheet.stop is not None:
        pieces.append(_yes(shell, c, sheet.stop, draft, texts, set_draft))
    pieces.append(typed_field(shell, words.MESSAGE, texts.message, lines=4))
    limits = draft.spare if draft.spare is not None else spare_sent(sheet)
    pieces.append(LimitPanel(shell, dict(limits), lambda spare: set_draft(replace(draft, spare=spare))))
    told = draft.told if draft.told is not None else told_sent(sheet)
    day = shell.clock.local(shell.clock.now()).day
    pieces.append(AxisLimitPanel(shell, told, day, lambda limits: set_draft(replace(draft, told=limits))))
    pieces.append(StationPanel(shell, sheet, draft.stations,
                               lambda stations: set_draft(replace(draft, stations=stations))))
    pieces.append(c.side_by_side([
        c.button(words.SEAL, seal, look=Look.SOLID), c.button(words.CANCEL, bind(set_draft, None)),
    ]))
    return c.stack(pieces, t.GAP)


def _yes(shell: Shell, c: Card, stop: Stop, draft: _Draft, texts: _Texts, set_draft: SetDraft) -> ft.Control:
    needs_clinician = stop.yes_from == "clinician"
    kinds = [AnswerOption(key, name) for key, name in words.PROFESSIONS.items()
             if not (needs_clinician and key == "coach")]
    return c.aside(c.stack([
        c.body(words.YES_WHY_CLINICIAN if needs_clinician else words.YES_WHY_COACH),
        typed_field(shell, words.YES_WHO, texts.who),
        c.strong(words.YES_KIND), c.one_of(kinds, draft.kind, lambda kind: set_draft(replace(draft, kind=kind))),
    ], 12))


def _written(shell: Shell, c: Card, sheet: Sheet, written: Written) -> ft.Control:
    async def save(_: object) -> None:
        await shell.device.files.save_bytes(written.name, written.data)

    async def copy(_: object) -> None:
        shell.say(words.COPIED if await shell.device.files.copy_text(written.text) else words.NOT_COPIED)

    acts = [c.small_button(words.SAVE_FILE, safe(shell, save)), c.small_button(words.COPY_TEXT, safe(shell, copy))]
    told = c.notice(words.sealed(written.number, sheet.person.name), acts=acts, icon=ft.Icons.LOCK_SHARP)
    return c.stack([told, c.soft(words.file_called(written.name))], 6)
