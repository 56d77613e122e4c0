"""What a coach shows or prints as a QR code: the key with its five words, and links to the app and to programmes."""
from __future__ import annotations

import re

import flet as ft

from app.actions.desk import publishing
from app.actions.desk.codes import Code, Holds, codes
from app.ui.coach.coach_layout import room
from app.ui.coach.qr import qr_png, qr_svg
from app.ui.parts import AnswerOption, Card, bind
from app.ui.parts import theme as t
from app.ui.parts.raster import raster
from app.ui.shell.shell import Shell, safe
from app.words.client import hand_over as words

#: Of the code on the screen, px: large enough for a telephone held over a desk.
SIDE = 360
NAMES = {Holds.KEY: words.KEY_CODE, Holds.APP: words.APP_CODE}


@ft.component
def CodePart(shell: Shell) -> ft.Control:
    """A button; then the code, what it holds, and two ways to keep it."""
    c = shell.card()
    is_open, set_open = ft.use_state(False)
    chosen, choose = ft.use_state(0)
    if not is_open:
        return c.side_by_side([c.small_button(words.CODE_OPEN, bind(set_open, True), icon=ft.Icons.QR_CODE_SHARP)])
    found = codes(shell.store, shell.brand)
    code = found[min(chosen, len(found) - 1)]
    under = publishing.matching_words(shell.store) if code.holds is Holds.KEY else ()

    async def save(_: object) -> None:
        picture = qr_svg(code.text, _lines(shell, code, under))
        kept = await shell.device.files.save_bytes(_file_name(code), picture)
        shell.say(words.SAVED_PICTURE if kept else words.NOT_COPIED)

    async def copy(_: object) -> None:
        shell.say(words.COPIED_CODE if await shell.device.files.copy_text(code.text) else words.NOT_COPIED)

    pieces: list[ft.Control] = [c.subhead(words.CODE_HEAD)]
    if len(found) > 1:
        among = [AnswerOption(str(at), name_of(one)) for at, one in enumerate(found)]
        pieces += [c.strong(words.CODE_WHAT), c.one_of_list(among, str(found.index(code)), lambda at: choose(int(at)))]
    pieces += [_picture(shell, c, code), *_under(c, under), c.soft(_why(code))]
    pieces += [c.note(words.NO_ADDRESS)] if len(found) == 1 else []
    pieces += [c.text(code.text, t.T_CAPTION, colour=c.p.soft, selectable=True), c.side_by_side([
        c.small_button(words.SAVE_PICTURE, safe(shell, save), icon=ft.Icons.SAVE_ALT_SHARP),
        c.small_button(words.COPY_CODE, safe(shell, copy), icon=ft.Icons.COPY_SHARP),
        c.small_button(words.CODE_CLOSE, bind(set_open, False)),
    ])]
    return c.stack(pieces, 12)


def name_of(code: Code) -> str:
    """What it is called in the list."""
    return NAMES.get(code.holds, code.file)


def _picture(shell: Shell, c: Card, code: Code) -> ft.Control:
    """Dark on white in both themes, since a camera reads the white around it too."""
    side = min(SIDE, room(shell) - 2 * t.RULE)
    image = raster(qr_png(code.text), width=side, height=side, filter_quality=ft.FilterQuality.NONE)
    shown = ft.Semantics(image=True, label=words.code_name(name_of(code)), content=image)
    return ft.Row([ft.Container(shown, bgcolor="#FFFFFF", border=c.border())])


def _under(c: Card, under: tuple[str, ...]) -> list[ft.Control]:
    return [c.text("   ".join(under), t.T_HEAD, t.EXTRA)] if under else []


def _why(code: Code) -> str:
    return {Holds.KEY: words.KEY_WHY, Holds.APP: words.APP_WHY}.get(code.holds) or words.pack_why(code.file)


def _lines(shell: Shell, code: Code, under: tuple[str, ...]) -> list[str]:
    """What stands under the code on paper."""
    if under:
        return [line for line in (publishing.coach_name(shell.store), " ".join(under)) if line]
    return [code.file or shell.brand.name, code.text]


def _file_name(code: Code) -> str:
    what = re.sub(r"[^a-z0-9]+", "-", (code.file.removesuffix(".evenload-pack") or code.holds.value).lower()).strip("-")
    return f"qr-{what}.svg"
