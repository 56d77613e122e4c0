"""A link opens what lies beside the app and nothing from elsewhere; a started program, the files it was given."""
from __future__ import annotations

import asyncio
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.device.linked_files import GivenFiles, HostFiles, address_below, folder_of, is_link, link_file, route_of
from app.domain.errors import Elsewhere, NoLinks, NothingThere, TooLarge

FOLDER = "https://steps.example/saltmarsh/"
PIECES = st.sampled_from(["..", ".", "", "/", "//", "\\", "%2e", "%2F", "a", "b.evenload-pack", "https:", "?", "#", "@",
                          "\n", "evil.example", "é", " ", "\u202e"])
names = st.one_of(st.text(max_size=60), st.lists(PIECES, max_size=6).map("".join))


@given(names)
def test_no_name_leads_out_of_the_folder(name: str) -> None:
    """It is refused, or what is asked for lies below the folder, on the same host, as a path and nothing else."""
    try:
        address = address_below(FOLDER, name)
    except Elsewhere:
        return
    parts = urlsplit(address)
    assert address.startswith(FOLDER) and not parts.query and not parts.fragment
    assert (parts.scheme, parts.netloc) == ("https", "steps.example")
    assert unquote(parts.path) == f"/saltmarsh/{name}" and ".." not in parts.path.split("/")
    assert unquote(unquote(parts.path)) == unquote(parts.path), "nothing is left for a proxy to decode once more"


@given(names)
def test_a_route_says_the_name_that_it_was_made_of(name: str) -> None:
    """Whatever the name."""
    assert link_file(f"https://x/#{route_of(name)}") == name


@pytest.mark.parametrize("name", [
    "https://evil.example/x.evenload-pack", "//evil.example/x", "../x", "a/../../x", "/x", "", ".", "a\\b", "%2e%2e/x",
    "a//b", "x\n",
])
def test_names_that_lie_elsewhere_are_refused_before_anything_is_asked(name: str) -> None:
    """No request leaves."""
    async def never(*_: object) -> bytes:
        raise AssertionError("asked")

    with pytest.raises(Elsewhere):
        asyncio.run(HostFiles(f"{FOLDER}#/today", never).fetch(name, 100))


@pytest.mark.parametrize("page", [
    FOLDER, f"{FOLDER}index.html", f"{FOLDER}#/get?file=a/b", "HTTPS://Steps.Example/saltmarsh/index.html#/x",
])
def test_the_folder_of_a_page(page: str) -> None:
    """Whatever stands behind it."""
    assert folder_of(page) == FOLDER


def test_a_file_beside_the_app_is_asked_for_by_its_whole_address() -> None:
    """With what was asked handed on."""
    asked = []

    async def ask(address: str, name: str, most: int) -> bytes:
        asked.append((address, name, most))
        return b"x"

    files = HostFiles(f"{FOLDER}#/today", ask)
    assert asyncio.run(files.fetch("packs/six weeks.evenload-pack", 100)) == b"x"
    assert asked == [(f"{FOLDER}packs/six%20weeks.evenload-pack", "packs/six weeks.evenload-pack", 100)]


def test_a_pasted_link_counts_only_at_the_app_s_own_address() -> None:
    """Another host, another folder of the same host, or another scheme is elsewhere."""
    files = HostFiles(FOLDER)
    assert files.name_in(f"{FOLDER}#/get?file=six%20weeks.evenload-pack") == "six weeks.evenload-pack"
    for other in ("https://evil.example/saltmarsh/", "https://steps.example/other/", "http://steps.example/saltmarsh/",
                  "https://steps.example/saltmarsh/deeper/"):
        with pytest.raises(Elsewhere):
            files.name_in(f"{other}#/get?file=a")


def test_what_is_a_link_and_what_is_not() -> None:
    """One address and nothing around it."""
    assert is_link(f" {FOLDER}#/get?file=a \n")
    assert not is_link(f"Here: {FOLDER}#/get?file=a") and not is_link(FOLDER) and not is_link("")


def test_a_program_opens_the_files_that_it_was_given_and_no_others(tmp_path: Path) -> None:
    """And looks at their size first."""
    path = tmp_path / "six weeks.evenload-pack"
    path.write_bytes(b"1234")
    (tmp_path / "other").write_bytes(b"")
    files = GivenFiles(path)
    assert asyncio.run(files.fetch(path.name, 4)) == b"1234"
    for name, most, error in ((path.name, 3, TooLarge), ("other", 9, NoLinks), (str(path), 9, NoLinks)):
        with pytest.raises(error):
            asyncio.run(files.fetch(name, most))
    path.unlink()
    with pytest.raises(NothingThere):
        asyncio.run(files.fetch(path.name, 9))
    with pytest.raises(NoLinks):
        files.name_in(f"{FOLDER}#/get?file=a")


@pytest.mark.parametrize("link", ["https://[[[/app/#/get?file=a", "https://steps.example]/saltmarsh/#/get?file=a"])
def test_what_is_no_address_at_all_is_refused(link: str) -> None:
    """As a link to elsewhere."""
    with pytest.raises(Elsewhere):
        HostFiles(FOLDER + "#/today").name_in(link)
