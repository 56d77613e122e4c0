"""The coach's keys, made on first use, and a programme built and signed from its source."""
from __future__ import annotations

import base64
import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import NamedTuple

from app.actions.desk.key_locks import KINDS, SECRET, coach_pair, require_open
from app.actions.desk.voice import Speaks, voice_of
from app.data_folder import SOURCES
from app.device.clock import Clock
from app.domain.model.rules import DEFAULT_RULES, RuleId, RuleTable, rule_table
from app.domain.model.source import Source
from app.domain.proofreading.proofread import Finding, proofread
from app.exchange.crypto import keys as key_pairs
from app.exchange.crypto.cipher import KEY_BYTES, random_bytes
from app.exchange.crypto.file_kinds import Kind
from app.exchange.crypto.keys import CoachKeys, KeyPair
from app.exchange.crypto.recovery_words import recovery_words
from app.exchange.crypto.text_form import to_text
from app.exchange.forms.source import HEAD, read_media, read_source
from app.exchange.packs.figure_files import figure_media, read_figure_source
from app.exchange.packs.manifest import KeyChange
from app.exchange.packs.pack import build_pack
from app.resources import optional_dir
from app.storage import keys, settings
from app.storage.database import Store
from app.storage.erasing import sweep_after_erasing
from app.storage.keys import COACH

#: Settings: the name on the coach's programmes, and what was signed: by source id, its version, hash and instant.
NAME, PUBLISHED = "coach_name", "coach_published"
#: Setting, after keys were lost and made anew: the statement that goes with every programme, as in a manifest.
KEY_CHANGE = "coach_key_change"


class Built(NamedTuple):
    """A programme file, or, where a problem blocks publishing, None in its place."""

    data: bytes | None
    source: Source
    problems: tuple[Finding, ...]

    @property
    def name(self) -> str:
        """What the file is called."""
        return file_name(self.source.id, self.source.version)

    def text(self) -> str:
        """It as lines for any messenger.

        Raises:
            TooLargeToPaste: it is too large for that.
        """
        return to_text(self.data or b"", Kind.PACK, self.name)


def file_name(source_id: str, version: int) -> str:
    """What a programme file is called."""
    return f"{source_id}-{version}{Kind.PACK.suffix}"


@dataclass(frozen=True)
class PublishableSource:
    """A source that can be published from the screen, and what the proofreader says of it."""

    folder: Path
    source: Source
    problems: tuple[Finding, ...]

    @property
    def blocked(self) -> bool:
        """Whether something in it could hurt a client."""
        return any(p.blocks for p in self.problems)


def coach_keys(store: Store) -> CoachKeys | None:
    """The coach's keys, or None before they were made. While they are locked the private halves are empty."""
    with store.read() as db:
        return _whole([coach_pair(db, store, kind) for kind in KINDS])


async def ensure_coach_keys(store: Store, clock: Clock) -> CoachKeys:
    """The coach's keys, made on first use. What is here already is never replaced.

    Raises:
        KeysLocked: they are under a passphrase and have to be opened first.
    """
    require_open(store)
    known = coach_keys(store)
    if known is not None:
        return known
    secret = random_bytes(KEY_BYTES)
    recovery = await key_pairs.recovery_pairs(secret)
    signing, sealing = await key_pairs.new_signing_pair(), await key_pairs.new_sealing_pair()
    # of recovery only the public halves are kept: the private ones come back from the words of the sheet
    made = (signing, sealing, *(KeyPair(b"", pair.public) for pair in recovery))
    with store.begin() as db:
        meanwhile = _whole([coach_pair(db, store, kind) for kind in KINDS])
        if meanwhile is not None:
            return meanwhile
        for kind, pair in zip(KINDS, made, strict=True):
            keys.keep_keys(db, keys.StoredKeyPair(COACH, kind, pair.private, pair.public, clock.now()))
        settings.save_setting(db, SECRET, secret.hex())
    return CoachKeys(signing, sealing, recovery[0].public, recovery[1].public)


def _whole(found: Sequence[keys.StoredKeyPair | None]) -> CoachKeys | None:
    pairs = [KeyPair(pair.private, pair.public) for pair in found if pair is not None]
    return CoachKeys(pairs[0], pairs[1], pairs[2].public, pairs[3].public) if len(pairs) == len(found) else None


def matching_words(store: Store) -> tuple[str, ...]:
    """The five words that the coach reads out; empty before the keys were made."""
    known = coach_keys(store)
    return key_pairs.matching_words(known.signing.public) if known else ()


# ------------------------------------------------------------------ the recovery sheet

def recovery_sheet(store: Store) -> tuple[str, ...] | None:
    """The words to print or write down; None once that was confirmed, or before the keys were made."""
    with store.read() as db:
        secret = settings.setting(db, SECRET)
    return recovery_words(bytes.fromhex(secret)) if secret else None


def confirm_sheet(store: Store) -> None:
    """The sheet is on paper: the secret leaves this machine, its journal and its copies. There is no way back."""
    with store.begin() as db:
        settings.forget_setting(db, SECRET)
    sweep_after_erasing(store)


# ------------------------------------------------------------------ building

class BuildStage(StrEnum):
    """How far a programme is."""

    READING = "reading"
    FIGURES = "figures"
    VOICE = "voice"
    SIGNING = "signing"


def _unwatched(_stage: BuildStage) -> None:
    """Nobody asks how far it is."""


async def build(store: Store, clock: Clock, folder: Path, engine: Speaks | None = None,
                begins: Callable[[BuildStage], None] = _unwatched) -> Built:
    """Reads, proofreads and signs the source in that folder. Where a problem blocks, nothing is signed.

    `engine` says the lines that the coach has not recorded; `begins` is called at the start of each stage.

    Raises:
        UnreadableSource, WrongValue, UnknownName: the source cannot be read or says something impossible.
        BadFigure: a moving figure does not pass its checks.
        UnsafeEntry, TooLarge: media that a pack may not hold.
        KeysLocked: the coach's keys are under a passphrase and have to be opened first.
    """
    require_open(store)
    begins(BuildStage.READING)
    source, media = read_source(folder), read_media(folder)
    problems = proofread(source)
    if any(p.blocks for p in problems):
        return Built(None, source, problems)
    begins(BuildStage.FIGURES)
    media |= figures_of(source, folder)
    begins(BuildStage.VOICE)
    media |= await voice_of(source, media, engine)
    begins(BuildStage.SIGNING)
    keys_now = await ensure_coach_keys(store, clock)
    data = await build_pack(source, coach=keys_now, media=media, rules_version=DEFAULT_RULES.version,
                            key_change=key_change(store))
    _note_published(store, clock, source, data)
    return Built(data, source, problems)


def key_change(store: Store) -> KeyChange | None:
    """By which clients believe new keys; None where the keys never changed."""
    with store.read() as db:
        told = settings.setting(db, KEY_CHANGE)
    if not told:
        return None
    by, signature = (base64.b64decode(told[name]) for name in ("by", "signature"))
    return KeyChange(by, signature, int(told.get("epoch", 0)))


def figures_of(source: Source, folder: Path) -> dict[str, bytes]:
    """The moving figures of its exercises, by path: the folder's own, else those that came along.

    Raises:
        UnreadableSource, WrongValue, UnknownName, BadFigure: as `build`.
    """
    shipped = [path for path in came_along() if path != folder]
    return figure_media(source, [read_figure_source(path) for path in (folder, *shipped)])


def came_along() -> tuple[Path, ...]:
    """The folders of the sources that came with the program."""
    top = optional_dir("assets")
    return () if top is None else tuple(head.parent for head in sorted((top / "programmes").glob(f"*/{HEAD}")))


def _note_published(store: Store, clock: Clock, source: Source, data: bytes) -> None:
    rules = {"preset": source.rules.preset, "shift": {rule.value: by for rule, by in source.rules.shift.items()}}
    about = {"version": source.version, "sha256": hashlib.sha256(data).hexdigest(), "utc": clock.now().isoformat(),
             "rules": rules}
    with store.begin() as db:
        settings.save_setting(db, NAME, source.coach)
        settings.save_setting(db, PUBLISHED, {**settings.setting(db, PUBLISHED, {}), source.id: about})


def published_version(store: Store, source_id: str) -> int | None:
    """The version of a source that was signed last, or None."""
    with store.read() as db:
        about = settings.setting(db, PUBLISHED, {}).get(source_id)
    return int(about["version"]) if about else None


def published_files(store: Store) -> tuple[str, ...]:
    """The names under which programmes were last signed."""
    with store.read() as db:
        every = settings.setting(db, PUBLISHED, {})
    return tuple(file_name(source_id, about["version"]) for source_id, about in sorted(every.items()))


def published_rules(store: Store) -> RuleTable:
    """The rule table of what was signed last; the shipped one before anything was."""
    with store.read() as db:
        every = settings.setting(db, PUBLISHED, {}).values()
    last = max((about for about in every if "rules" in about), key=lambda about: str(about["utc"]), default=None)
    if last is None:
        return DEFAULT_RULES
    return rule_table(last["rules"]["preset"], {RuleId(rule): by for rule, by in last["rules"]["shift"].items()})


def coach_name(store: Store) -> str:
    """The name on what was signed last; empty before."""
    with store.read() as db:
        return str(settings.setting(db, NAME, ""))


def source_folders(store: Store) -> tuple[Path, ...]:
    """Folders that hold a source: the coach's own in `sources` beside the store, then those that came along."""
    own = own_sources(store)
    mine = sorted(own.glob(f"*/{HEAD}")) if own is not None and own.is_dir() else []
    return (*(head.parent for head in mine), *came_along())


def own_sources(store: Store) -> Path | None:
    """Where the coach's own sources lie; None for a store that is no file."""
    return store.path.parent / SOURCES if store.path else None


def open_source(folder: Path) -> PublishableSource:
    """A source, read and proofread.

    Raises:
        UnreadableSource, WrongValue, UnknownName: it cannot be read or says something impossible.
    """
    source = read_source(folder)
    return PublishableSource(folder, source, proofread(source))
