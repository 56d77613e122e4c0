"""The moving figure of an exercise, out of the programme file that was taken in."""
from __future__ import annotations

from functools import lru_cache

from app.actions.files.opened_packs import pack_shelf
from app.domain.figure.drawing.picture import Picture, is_photo, paths, read_picture
from app.domain.model.exercise import Exercise
from app.storage.database import Store


def picture_of(store: Store, pack: str, exercise: Exercise) -> Picture | None:
    """The figure that the exercise names, or the one of its own name; None where the pack has neither.

    Args:
        store: where the pack lies.
        pack: the pack's SHA-256, hex.
        exercise: what it shows.
    """
    return _picture(store, pack, exercise.figure or exercise.id)


def photo_of(store: Store, pack: str, exercise: Exercise) -> bytes | None:
    """The coach's own picture that the exercise names, or None."""
    return _photo(store, pack, exercise.figure) if is_photo(exercise.figure) else None


@lru_cache(maxsize=16)
def _photo(store: Store, pack: str, path: str) -> bytes | None:
    shelf = pack_shelf(store, pack)
    return shelf.read(path) if shelf else None


@lru_cache(maxsize=128)
def _picture(store: Store, pack: str, figure: str) -> Picture | None:
    """Read once: a page asks at every turn, and a pack never changes."""
    shelf = pack_shelf(store, pack)
    found = [shelf.read(path) for path in paths(figure)] if shelf else [None]
    moving, start, turn = found if len(found) == 3 else (None, None, None)
    if moving is None or start is None or turn is None:
        return None
    return read_picture(figure, moving, start, turn)

