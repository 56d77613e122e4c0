"""Is it loud enough? The count, a start and, where there is a voice, a line, as they sound in the session."""
from __future__ import annotations

from collections.abc import Mapping, Sequence

import flet as ft

from app.actions.output_settings import Sense, confirm_heard, is_heard, senses
from app.device.abilities import Device
from app.device.clock import loop_s
from app.domain.model.exercise import Exercise
from app.domain.model.plan import Part, Step, StepKind
from app.domain.sound.audio_track import EVERY, CueTrack, lay_track
from app.domain.sound.cues import CueKind
from app.ui.client.folded import Folded
from app.ui.parts import theme as t
from app.ui.shell.shell import Shell, safe
from app.words import sound as words
from app.words.client import day_card as fold

LISTEN_S = 9
"""A name, the count and the start; a line of safety too, where it is short."""
WORK_MS = 3_000


@ft.component
def SoundCheck(shell: Shell, pack: str, exercise: Exercise | None) -> ft.Control:
    """A button to listen, and the question. Nothing where it was answered before and nothing is switched on."""
    answer, set_answer = ft.use_state("")
    c = shell.card()

    async def listen(_: object) -> None:
        set_answer("" if await sample(shell, pack, exercise) else words.NO_SOUND)

    def heard(yes: bool) -> None:
        if yes:
            confirm_heard(shell.store)
        set_answer(words.HEARD if yes else words.NOT_HEARD)

    chosen = {words.HEARD: True, words.NOT_HEARD: False}.get(answer)
    return c.stack([
        c.subhead(words.CHECK_HEAD), c.soft(words.CHECK_HINT),
        c.button(words.PLAY_IT, safe(shell, listen), icon=ft.Icons.VOLUME_UP_SHARP),
        c.text(words.ASKED, t.T_BODY, t.EXTRA), c.yes_no(words.ASKED_SHORT, chosen, safe(shell, heard)),
        *([ft.Semantics(content=c.note(answer), live_region=True)] if answer else []),
    ], 8)


def before_first(shell: Shell, pack: str, steps: Sequence[Step], library: Mapping[str, Exercise]) -> list[ft.Control]:
    """The check before a session, folded, until somebody has said that they hear it."""
    first = next((library.get(step.exercise or "") for step in steps if step.is_effort), None)

    def draw() -> list[ft.Control]:
        return [SoundCheck(shell, pack, first, key="sound-check")]  # type: ignore[call-arg]

    return [] if is_heard(shell.store) else [Folded(shell, fold.LISTEN, fold.LISTEN_LINE, draw)]


async def sample(shell: Shell, pack: str, exercise: Exercise | None) -> bool:
    """Plays it; by single tones where there is no track. Whether anything could be played."""
    # pictures and voices of a pack are loaded when somebody listens, and not for the first screen
    from app.actions.files.pack_media import clips_of

    device = shell.device
    voice = senses(shell.store)[Sense.SPEECH] and exercise is not None
    clips = clips_of(shell.store, pack, [exercise]) if voice and exercise else {}
    track = sample_track(exercise, clips, EVERY if device.sounds.on else frozenset())
    begun = loop_s()
    if await device.track.load(track) and await device.track.play(lambda: int((loop_s() - begun) * 1000)):
        return True
    return await _tones(shell, device)


def sample_track(exercise: Exercise | None, clips: Mapping[str, bytes], kinds: frozenset[CueKind]) -> CueTrack:
    """A rest in which the next exercise is told, the count, and the start of the work."""
    name = exercise.id if exercise else None
    rest = Step(StepKind.REST, Part.MAIN, 0, LISTEN_S * 1000, name)
    work = Step(StepKind.WORK, Part.MAIN, rest.end_ms, WORK_MS, name)
    library = {exercise.id: exercise} if exercise else {}
    return lay_track((rest, work), kinds=kinds, library=library, clips=clips)


async def _tones(shell: Shell, device: Device) -> bool:
    await device.sounds.load()
    for kind in (CueKind.COUNT, CueKind.COUNT, CueKind.COUNT):
        if not await device.sounds.play(kind.value):
            return False
        await shell.clock.sleep(1)
    return await device.sounds.play(CueKind.WORK.value)
