"""What a session shows and says out of the programme file that was taken in: figures, photos and recorded lines."""
from __future__ import annotations

import zipfile
from collections.abc import Iterable, Mapping

from app.domain.errors import AppError
from app.domain.figure.drawing.picture import Picture, is_photo, paths, read_picture
from app.domain.model.exercise import Exercise
from app.domain.sound.voice_lines import change_lines, exercise_lines, side_lines
from app.exchange.packs.archive import PackShelf
from app.exchange.packs.voice_files import clips_in
from app.storage import packs
from app.storage.database import Store


def picture_of(store: Store, pack: str, exercise: Exercise) -> Picture | None:
    """The figure that the exercise names, or the one of its own name; None where the pack has neither.

    Args:
        store: where the pack lies.
        pack: the pack's SHA-256, hex.
        exercise: what it shows.
    """
    figure = exercise.figure or exercise.id
    # a page asks at every turn, and a pack never changes
    return store.read_once.value("picture", (pack, figure), lambda: _picture(store, pack, figure), most=128)


def photo_of(store: Store, pack: str, exercise: Exercise) -> bytes | None:
    """The coach's own picture that the exercise names, or None."""
    path = exercise.figure
    if not is_photo(path):
        return None
    return store.read_once.value("photo", (pack, path), lambda: _photo(store, pack, path), most=16)


def _photo(store: Store, pack: str, path: str) -> bytes | None:
    shelf = pack_shelf(store, pack)
    return shelf.read(path) if shelf else None


def _picture(store: Store, pack: str, figure: str) -> Picture | None:
    shelf = pack_shelf(store, pack)
    found = [shelf.read(path) for path in paths(figure)] if shelf else [None]
    moving, start, turn = found if len(found) == 3 else (None, None, None)
    if moving is None or start is None or turn is None:
        return None
    return read_picture(figure, moving, start, turn)


def pack_shelf(store: Store, pack: str) -> PackShelf | None:
    """The files of a pack that was taken in, by its SHA-256; None where it is not here."""
    return store.read_once.value("shelf", pack, lambda: _shelf(store, pack), most=2)


def _shelf(store: Store, pack: str) -> PackShelf | None:
    with store.read() as db:
        data = packs.pack_file(db, pack)
    try:
        return None if data is None else PackShelf(data)
    except zipfile.BadZipFile:  # it was whole when it was taken in; a session never ends for want of a picture
        return None


def clips_of(store: Store, pack: str, exercises: Iterable[Exercise]) -> Mapping[str, bytes]:
    """Samples of every line about these exercises that is there, by its file; none where the pack has no voice."""
    shelf = pack_shelf(store, pack)
    if shelf is None:
        return {}
    wanted = [line.clip for exercise in exercises for line in exercise_lines(exercise)]
    try:
        return clips_in(shelf, [*wanted, *(line.clip for line in (*side_lines(), *change_lines()))])
    except AppError:  # it was whole when it was taken in; a session never ends for want of a voice
        return {}
