"""Pasted text, links and keys come in by the same door as files: verified whole, and the words compared."""
from __future__ import annotations

from dataclasses import replace

import pytest

from app.actions import people
from app.actions.files import pasted_or_linked, programmes
from app.actions.files.pasted_or_linked import NamedFile, OfferedKey
from app.actions.files.programmes import TrustStep
from app.device.abilities import Device
from app.device.clock import ManualClock
from app.device.linked_files import HostFiles
from app.device.recording import RecordingDevice
from app.domain.branding.brand import EVENLOAD, CoachKey
from app.domain.errors import AnotherKey, AppError, DamagedFile, Elsewhere, NoLinks, NotOurFile, UntrustedSigner
from app.domain.model.person import Person
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.key_text import key_line, key_link
from app.exchange.crypto.keys import matching_words
from app.exchange.crypto.text_form import to_text
from app.exchange.letters.replies import write_reply
from app.exchange.packs.pack import build_pack
from app.storage.database import Store
from app.storage.export import logical_dump
from app.words.errors import error_text
from tests.exchange.fixed import CLIENT, COACH, REPLY, SOURCE, STRANGER, run

PAGE = "https://steps.example/saltmarsh/index.html"
PACK = run(build_pack(SOURCE, coach=COACH))
NELL = CoachKey(SOURCE.coach, COACH.signing.public.hex())


def on_the_web(device: RecordingDevice) -> Device:
    """The same machine, where the app lies at an address with one file beside it."""
    async def ask(address: str, name: str, most: int) -> bytes:
        assert (address, name) == ("https://steps.example/saltmarsh/march.evenload-pack", "march.evenload-pack")
        return PACK

    return replace(Device(**{name: getattr(device, name) for name in Device.__dataclass_fields__}),
                   linked=HostFiles(PAGE, ask))


def pasted(store: Store, device: Device, text: str) -> NamedFile | OfferedKey:
    """What becomes of a text."""
    return run(pasted_or_linked.pasted(store, EVENLOAD, device, text, "This text"))


def dump(store: Store) -> str:
    """All that is kept."""
    with store.read() as db:
        return logical_dump(db)


def test_a_pasted_programme_is_the_file(store: Store, clock: ManualClock, device: RecordingDevice) -> None:
    """And asks for the words like the file, keeping nothing before."""
    before = dump(store)
    file = pasted(store, device, "Hello!\n> " + to_text(PACK, Kind.PACK).replace("\n", "\n> "))
    assert isinstance(file, NamedFile) and file.data == PACK
    opened = run(programmes.open_pack(store, clock, file.name, file.data))
    assert (opened.standing, opened.words) == (TrustStep.COMPARE, matching_words(COACH.signing.public))
    assert dump(store) == before


def test_a_chosen_file_may_hold_the_text_form(store: Store, clock: ManualClock) -> None:
    """As mail programs save it; what is kept is the programme itself."""
    opened = run(programmes.open_pack(store, clock, "mail.txt", to_text(PACK, Kind.PACK).encode()))
    assert opened.data == PACK


@pytest.mark.parametrize(("text", "error"), [
    ("Good morning.", NotOurFile), ("", NotOurFile), ("[evenload pack begin]", DamagedFile),
    (to_text(PACK, Kind.PACK)[:-90], DamagedFile), ("evenload-key 1 AAAA", DamagedFile),
    (f"{PAGE}#/get?file=march.evenload-pack", NoLinks),
])
def test_a_bad_text_is_one_sentence_and_changes_nothing(
    store: Store, device: RecordingDevice, text: str, error: type[AppError],
) -> None:
    """Whatever it is."""
    before = dump(store)
    with pytest.raises(error) as refused:
        pasted(store, device, text)
    assert error_text(refused.value).startswith(("This text", "Links to march.evenload-pack"))
    assert dump(store) == before


def test_another_kind_of_text_says_where_it_belongs(store: Store, clock: ManualClock, device: RecordingDevice) -> None:
    """A message pasted among the programmes."""
    reply = run(write_reply(REPLY, coach=COACH.signing, readers=[CLIENT.sealing.public]))
    file = pasted(store, device, to_text(reply, Kind.REPLY))
    assert isinstance(file, NamedFile)
    with pytest.raises(NotOurFile) as refused:
        run(programmes.open_pack(store, clock, file.name, file.data))
    assert "Open it under Send" in error_text(refused.value)


def test_a_pasted_link_is_followed_at_home_alone(store: Store, device: RecordingDevice) -> None:
    """Links to another host asks for nothing there."""
    web = on_the_web(device)
    found = pasted(store, web, f" {PAGE}#/get?file=march.evenload-pack ")
    assert found == NamedFile("march.evenload-pack", PACK)
    for other in ("https://evil.example/saltmarsh/#/get?file=march.evenload-pack", f"{PAGE}#/get?file=../x",
                  f"{PAGE}#/get?"):
        with pytest.raises(Elsewhere):
            pasted(store, web, other)


@pytest.mark.parametrize("text", [key_line(NELL), key_link(NELL, "https://steps.example/")])
def test_a_key_counts_once_the_words_were_compared(
    store: Store, clock: ManualClock, device: RecordingDevice, text: str,
) -> None:
    """Reading it keeps nothing; afterwards that coach's programme opens without asking, and no other under the name."""
    before = dump(store)
    offered = pasted(store, device, text)
    assert offered == OfferedKey(NELL, matching_words(COACH.signing.public), known=False)
    assert dump(store) == before
    assert run(programmes.open_pack(store, clock, "a", PACK, pasted_or_linked.expected_coaches(store, EVENLOAD))
               ).standing is TrustStep.COMPARE
    pasted_or_linked.expect_coach(store, offered.coach)
    expected = pasted_or_linked.expected_coaches(store, EVENLOAD)
    assert run(programmes.open_pack(store, clock, "a", PACK, expected)).standing is TrustStep.EXPECTED
    with pytest.raises(UntrustedSigner):
        run(programmes.open_pack(store, clock, "a", run(build_pack(SOURCE, coach=STRANGER)), expected))
    assert pasted_or_linked.offered_key(store, EVENLOAD, text, "This key").known


def test_another_key_under_a_known_name_is_refused(store: Store, clock: ManualClock) -> None:
    """Whether the name is known by a key alone or by a programme."""
    strange = key_line(CoachKey(f"  {SOURCE.coach.upper()} ", STRANGER.signing.public.hex()))
    pasted_or_linked.expect_coach(store, NELL)
    with pytest.raises(AnotherKey):
        pasted_or_linked.offered_key(store, EVENLOAD, strange, "This key")
    ada = people.register(store, clock, Person("", "Ada"))
    opened = run(programmes.open_pack(store, clock, "a", PACK, pasted_or_linked.expected_coaches(store, EVENLOAD)))
    programmes.accept_pack(store, clock, ada.id, opened)
    assert pasted_or_linked.expected_coaches(store, EVENLOAD) == (), "from now on the pin alone counts"
    with pytest.raises(AnotherKey):
        pasted_or_linked.offered_key(store, EVENLOAD, strange, "This key")
    assert pasted_or_linked.offered_key(store, EVENLOAD, key_line(NELL), "This key").known


def test_the_very_same_programme_again_is_known_to_be_here(store: Store, clock: ManualClock) -> None:
    """And it changes nothing."""
    ada = people.register(store, clock, Person("", "Ada"))
    first = run(programmes.open_pack(store, clock, "a", PACK))
    assert not first.is_here
    programmes.accept_pack(store, clock, ada.id, first)
    before = dump(store)
    again = run(programmes.open_pack(store, clock, "a", PACK))
    assert (again.is_here, again.standing) == (True, TrustStep.KNOWN)
    programmes.accept_pack(store, clock, ada.id, again)
    assert dump(store) == before
