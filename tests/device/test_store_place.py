"""Where the app runs: told by the page, and named so that no two apps of a host meet."""
from __future__ import annotations

from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st

from app.device.private_files import folder_name
from app.device.store_place import browser_place, native_place, told
from app.words.machine import web

HOST = "https://host.example"


def test_the_folder_is_named_by_the_place_and_not_by_the_page() -> None:
    """One app has one folder, however it was opened."""
    assert folder_name(f"{HOST}/") == folder_name(f"{HOST}/index.html#/today") == "evenload"
    assert folder_name(f"{HOST}/studio-a/#/today") == folder_name(f"{HOST}/studio-a/?x=/y/") == "evenload_studio-a"


PARTS = st.lists(st.text("ab_%5F-.é", min_size=1, max_size=6), max_size=4)


@given(PARTS, PARTS)
def test_two_places_of_a_host_have_two_folders(one: list[str], other: list[str]) -> None:
    """Also `/a_b/` and `/a/b/`."""
    names = [folder_name("/".join([HOST, *parts, ""])) for parts in (one, other)]
    assert (names[0] == names[1]) == (one == other) and not any("/" in name for name in names)


def test_an_offline_start_is_known_only_once_it_was_told() -> None:
    """At the start or later; an instant that is none counts as nothing."""
    place = browser_place(f"{HOST}/", "evenload", "")
    assert place.in_browser and place.offline_start is None
    told(place, {"kept": True, "home": False, "offline": "soon"})
    assert (place.offline_start, place.is_kept) == (None, True)
    told(place, {"offline": "2026-03-02T07:30:00.000Z"})
    told(place, {"offline": ""})
    assert place.offline_start == datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
    assert not native_place().in_browser


def test_the_room_that_it_takes_is_said_in_whole_megabytes() -> None:
    """As the browser last reckoned it; what says nothing of it changes nothing."""
    place = browser_place(f"{HOST}/", "evenload", "")
    assert place.uses_bytes == 0
    told(place, {"uses": 91_600_000})
    told(place, {"kept": True})
    assert web.uses(place.uses_bytes).startswith("It takes up about 92 MB on this device: ")
    assert "about 1 MB" in web.uses(300)
