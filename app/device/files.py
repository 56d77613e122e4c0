"""Files in and out through the client: a picker, a download, the share sheet, the clipboard."""
from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from app.device.abilities import Ability, Handed, Missing, PickedFile
from app.device.bounded_call import ask

#: A person may take long over a dialog.
WITHIN_S = 3600.0
COPIED_WITHIN_S = 5.0
MIME = "application/octet-stream"
OUTCOMES = {ft.ShareResultStatus.SUCCESS: Handed.SHARED, ft.ShareResultStatus.DISMISSED: Handed.DISMISSED,
            ft.ShareResultStatus.UNAVAILABLE: Handed.UNTOLD}


class FletFiles:
    """Make it once, in `main`, and hold it."""

    def __init__(self, missing: Missing) -> None:
        self._missing = missing
        self._picker = ft.FilePicker()
        self._share = ft.Share()
        self._clipboard = ft.Clipboard()

    async def pick_files(self) -> Sequence[PickedFile]:
        chosen: list[ft.FilePickerFile] = []

        async def pick() -> None:
            # A slow machine would otherwise lose a good choice when its window comes back into focus.
            chosen.extend(await self._picker.pick_files(
                allow_multiple=True, with_data=True, cancel_upload_on_window_blur=False))

        await ask(Ability.PICK, self._missing, pick, WITHIN_S)
        return [PickedFile(file.name, file.bytes) for file in chosen if file.bytes is not None]

    async def save_bytes(self, name: str, data: bytes) -> bool:
        async def save() -> None:
            await self._picker.save_file(file_name=name, src_bytes=data)

        return await ask(Ability.SAVE, self._missing, save, WITHIN_S)

    async def share(self, name: str, data: bytes) -> Handed:
        results: list[ft.ShareResult] = []

        async def hand_over() -> None:
            file = ft.ShareFile.from_bytes(data, mime_type=MIME, name=name)
            results.append(await self._share.share_files([file]))

        if await ask(Ability.SHARE, self._missing, hand_over, WITHIN_S):
            return OUTCOMES[results[0].status]
        return Handed.SAVED if await self.save_bytes(name, data) else Handed.FAILED

    async def copy_text(self, text: str) -> bool:
        return await ask(Ability.COPY, self._missing, lambda: self._clipboard.set(text), COPIED_WITHIN_S)
