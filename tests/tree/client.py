"""The client's side of a Flet session, in this process: no socket and no pixels.

It leans on these insides of Flet: `_i` and `_c` of a control, `_services` and `_dialogs` of a page, `_context_page`.
"""
from __future__ import annotations

import asyncio
import functools
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import flet as ft
import msgpack
from flet.controls.context import _context_page, context
from flet.messaging.connection import Connection
from flet.messaging.protocol import (
    Message,
    MessageAction,
    configure_encode_object_for_msgpack,
    decode_ext_from_msgpack,
)
from flet.messaging.session import Session
from flet.pubsub.pubsub_hub import PubSubHub

from tests.tree.still_loop import StillLoop

Main = Callable[[ft.Page], Awaitable[None]]
ENCODE = configure_encode_object_for_msgpack(ft.BaseControl)


@dataclass(frozen=True)
class Saved:
    """A file that the app gave to the person."""

    suggested_filename: str
    data: bytes

    def save_as(self, path: Path) -> None:
        path.write_bytes(self.data)


@dataclass
class Machine:
    """What the client's services answer. Put files into `to_pick`; find what came out in the others."""

    calm: bool = True
    """Whether it asks for no motion."""
    to_pick: list[Path] = field(default_factory=list)
    saved: list[Saved] = field(default_factory=list)
    shared: list[Saved] = field(default_factory=list)
    copied: list[str] = field(default_factory=list)
    kept: dict[str, Any] = field(default_factory=dict)
    """What the client was told to remember, by name."""

    def answer(self, service: str, method: str, args: dict[str, Any]) -> Any:
        """Raises KeyError for what a client does not know."""
        if service in {"Audio", "Wakelock", "HapticFeedback"}:
            return None
        return {"FilePicker.pick_files": self._pick, "FilePicker.save_file": self._save, "Clipboard.set": self._copy,
                "Share.share_files": self._share, "SemanticsService.get_accessibility_features": self._features,
                "SharedPreferences.set": self._keep,
                }[f"{service}.{method}"](args)

    def _pick(self, _: object) -> list[dict[str, Any]]:
        files, self.to_pick = self.to_pick, []
        return [{"id": at, "name": one.name, "path": None, "size": one.stat().st_size, "bytes": one.read_bytes()}
                for at, one in enumerate(files)]

    def _save(self, args: dict[str, Any]) -> None:
        self.saved.append(Saved(args["file_name"], args["src_bytes"]))

    def _share(self, args: dict[str, Any]) -> dict[str, str]:
        self.shared += [Saved(one["name"], one["data"]) for one in args["files"]]
        return {"status": "success", "raw": ""}

    def _copy(self, args: dict[str, Any]) -> None:
        self.copied.append(args["data"])

    def _keep(self, args: dict[str, Any]) -> bool:
        self.kept[args["key"]] = args["value"]
        return True

    def _features(self, _: object) -> dict[str, bool]:
        return {"reduce_motion": self.calm} | dict.fromkeys(("accessible_navigation", "bold_text", "disable_animations",
                "high_contrast", "invert_colors", "on_off_switch_labels", "supports_announcements"), False)


class Client(Connection):
    """One page of the app. Messages are encoded as for a real client: Flet notes on encoding what the client knows."""

    def __init__(self, loop: StillLoop, machine: Machine) -> None:
        super().__init__()  # type: ignore[no-untyped-call]
        self.loop, self.pubsubhub, self.page_url = loop, PubSubHub(), "http://127.0.0.1/"
        self.machine = machine
        self.crashes: list[str] = []
        self.sent = 0
        self._loaded: dict[int, object] = {}
        self._notes: set[int] = set()
        self._tasks: set[asyncio.Task[None]] = set()
        self.session = Session(self)
        self.page = self.session.page

    def register(self, main: Main, page: dict[str, Any]) -> None:
        """The first message of a client, and what a server does upon it."""
        self.session.apply_page_patch(page)
        msgpack.packb(self.session.get_page_patch(), default=ENCODE)  # type: ignore[no-untyped-call]
        self._run(self._start(main))

    async def _start(self, main: Main) -> None:
        _context_page.set(self.page)
        context.reset_auto_update()  # type: ignore[no-untyped-call]
        await main(self.page)
        await self.session.after_event(self.page)

    def event(self, control: ft.BaseControl, name: str, data: Any = None, **props: Any) -> None:
        """UPDATE_CONTROL_PROPS, where some are given, and CONTROL_EVENT."""
        if props:
            self.session.apply_patch(control._i, props)
        self._run(self.session.dispatch_event(control._i, name, data))

    def send_message(self, message: Message) -> None:
        packed = msgpack.packb([message.action, message.body], default=ENCODE)
        self.sent += len(packed)
        if message.action is MessageAction.INVOKE_METHOD:
            _, asked = msgpack.unpackb(packed, ext_hook=decode_ext_from_msgpack)
            self.loop.call_soon(functools.partial(self._answer, **asked))
        elif message.action is MessageAction.SESSION_CRASHED:
            self.crashes.append(message.body.message)
        else:
            self.loop.call_soon(self._drawn)

    def _answer(self, control_id: int, call_id: str, name: str, args: dict[str, Any] | None = None) -> None:
        result, error = None, None
        control = self.session.index.get(control_id)
        if name == "push_route" and args:
            self.event(self.page, "route_change", {"route": args["route"]}, route=args["route"])
        elif control is not None:
            try:
                result = self.machine.answer(control._c, name, args or {})
            except KeyError as unknown:
                error = f"not on this machine: {unknown}"
        self.session.handle_invoke_method_results(control_id, call_id, result, error)

    def _drawn(self) -> None:
        """What a client tells of itself: a sound is loaded, a note over the page has gone."""
        for one in self.page._services._services:
            if one._c == "Audio" and self._loaded.get(one._i) != one.src:
                self._loaded[one._i] = one.src
                self.event(one, "loaded")
        for note in self.page._dialogs.controls:
            if isinstance(note, ft.SnackBar) and note.open and note._i not in self._notes:
                self._notes.add(note._i)
                shown_ms = note.duration if isinstance(note.duration, int) else note.duration.in_milliseconds
                self.loop.call_later(shown_ms / 1000, functools.partial(self.event, note, "dismiss", open=False))

    def _run(self, work: Any) -> None:
        task = self.loop.create_task(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
