"""A window of the app without a browser, in another process than the app: Flet's wire, and the tree that comes by it.

A frame is a zero byte and a pair, `[action, body]`, in MessagePack. Controls come as maps, with their kind under `_c`
and their number under `_i`; what changes, as operations on the map of one control.
"""
from __future__ import annotations

import asyncio
import re
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager
from typing import Any

import msgpack
from flet.messaging.protocol import MessageAction
from websockets.asyncio.client import ClientConnection, connect
from websockets.typing import Origin

PAGE, OPEN_S = 1, 60.0
REPLACE, ADD, REMOVE, MOVE = range(4)
PHONE = {"web": True, "platform": "android", "width": 412.0, "height": 915.0, "platform_brightness": "light"}
NAMES = ("value", "content", "label", "tooltip", "semantics_label")
#: What a client answers where it is asked for more than to have done something.
ANSWERS: dict[str, Any] = {"get_accessibility_features": dict.fromkeys(
    ("accessible_navigation", "bold_text", "disable_animations", "high_contrast", "invert_colors",
     "on_off_switch_labels", "reduce_motion", "supports_announcements"), False)}


class Crashed(AssertionError):
    """The app showed its error card."""


class Tree:
    """What a client knows of its page."""

    def __init__(self, page: dict[str, Any]) -> None:
        self.page = page

    def control(self, number: int) -> dict[str, Any] | None:
        """The control of that number; None where it is not shown any more."""
        return next((one for one in every(self.page) if one.get("_i") == number), None)

    def change(self, number: int, operations: list[Any]) -> None:
        """Does to one control what was sent for it.

        Raises:
            LookupError: the app takes something for shown that is not.
        """
        root = self.control(number)
        if root is None:
            raise LookupError(f"no control {number} to change")
        paths, *todo = operations
        places = dict(_places(paths, root))
        for kind, *how in todo:
            if kind == MOVE:
                source, at, target, to = how
                places[target].insert(to, places[source].pop(at))
            elif kind == REMOVE:
                del places[how[0]][how[1]]
            elif kind == ADD and isinstance(places[how[0]], list):
                places[how[0]].insert(how[1], how[2])
            else:
                places[how[0]][how[1]] = how[2]

    def pressables(self) -> list[tuple[str, int]]:
        """Name and number of whatever can be pressed now, in reading order."""
        shown = (one for one in every(self.page) if one.get("on_click") and not one.get("disabled"))
        return [(" ".join(words(one)), one["_i"]) for one in shown]


class Wire:
    """One window that is open."""

    def __init__(self, socket: ClientConnection) -> None:
        self._socket = socket
        self._loaded: dict[int, Any] = {}
        self.session = ""
        self.tree = Tree({})
        self.frames = 0

    async def register(self, route: str, session: str = "") -> None:
        """Says who this is; with the session of an earlier window it goes on with that one's visit."""
        page = PHONE | {"route": route}
        await self._send(MessageAction.REGISTER_CLIENT, {"session_id": session, "page_name": "", "page": page})
        while not self.session:
            await self.take()

    async def take(self) -> None:
        """The next thing that the app says, and what a client does upon it.

        Raises:
            Crashed: it is the error card.
        """
        frame = await self._socket.recv()
        assert isinstance(frame, bytes) and frame[0] == 0
        action, body = msgpack.unpackb(frame[1:], strict_map_key=False)
        self.frames += 1
        match MessageAction(action):
            case MessageAction.REGISTER_CLIENT:
                assert not body["error"], body["error"]
                self.session, self.tree = body["session_id"], Tree(body["page_patch"])
            case MessageAction.PATCH_CONTROL:
                self.tree.change(body["id"], body["patch"])
                await self._tell_loaded()
            case MessageAction.INVOKE_METHOD:
                await self._answer(**body)
            case MessageAction.SESSION_CRASHED:
                raise Crashed(body["message"])

    def says(self, said: str) -> bool:
        """Whether the page says something of that pattern now."""
        wanted = re.compile(said)
        return any(wanted.search(line) for line in words(self.tree.page))

    async def until(self, said: str, within_s: float) -> None:
        """Takes what comes until the page says something of that pattern."""
        try:
            async with asyncio.timeout(within_s):
                while not self.says(said):
                    await self.take()
        except TimeoutError:
            raise AssertionError(f"not in {within_s} s: {said}; the page says {list(words(self.tree.page))}") from None

    async def go(self, route: str) -> None:
        """To another address, as by the browser's own history."""
        await self._send(MessageAction.UPDATE_CONTROL_PROPS, {"id": PAGE, "props": {"route": route}})
        await self._event(PAGE, "route_change", {"route": route})

    async def press(self, name: str) -> None:
        """The first thing of that pattern that can be pressed.

        Raises:
            AssertionError: there is none.
        """
        there = self.tree.pressables()
        found = next((number for words, number in there if re.search(name, words)), None)
        assert found is not None, f"nothing to press: {name}; there are {[words for words, _ in there]}"
        await self._event(found, "click", None)

    def drop(self) -> None:
        """Is gone, as when a phone loses its network: without a word."""
        self._socket.transport.abort()

    async def _answer(self, control_id: int, call_id: str, name: str, args: dict[str, Any] | None = None) -> None:
        known = self.tree.control(control_id)
        await self._send(MessageAction.INVOKE_METHOD, {
            "control_id": control_id, "call_id": call_id, "result": ANSWERS.get(name),
            "error": None if known else f"no control {control_id}"})
        if name == "push_route" and args:
            await self.go(args["route"])

    async def _tell_loaded(self) -> None:
        for one in every(self.tree.page):
            if one.get("_c") == "Audio" and self._loaded.get(one["_i"]) != one.get("src"):
                self._loaded[one["_i"]] = one.get("src")
                await self._event(one["_i"], "loaded", None)

    async def _event(self, target: int, name: str, data: object) -> None:
        await self._send(MessageAction.CONTROL_EVENT, {"target": target, "name": name, "data": data})

    async def _send(self, action: MessageAction, body: object) -> None:
        await self._socket.send(b"\x00" + msgpack.packb([action.value, body]))


@asynccontextmanager
async def wire(host: str, cookie: str) -> AsyncIterator[Wire]:
    """A window that has come through the gate: its socket, with the cookie. At the end it says goodbye, if it can."""
    async with connect(f"ws://{host}/ws", origin=Origin(f"http://{host}"), additional_headers={"Cookie": cookie},
                       max_size=None, ping_interval=None, open_timeout=OPEN_S) as socket:
        yield Wire(socket)


def every(value: Any) -> Iterator[dict[str, Any]]:
    """Every control in what was sent, in the order of its fields."""
    if isinstance(value, dict):
        if "_c" in value:
            yield value
        for part in value.values():
            yield from every(part)
    elif isinstance(value, list):
        for part in value:
            yield from every(part)


def words(value: Any) -> Iterator[str]:
    """What a control and those in it say."""
    for one in every(value):
        yield from (one[name] for name in NAMES if isinstance(one.get(name), str) and one[name])


def _places(paths: list[Any], place: Any) -> Iterator[tuple[int, Any]]:
    """Number of each place in the table of an operation's paths, and what stands there."""
    yield paths[0], place
    for key, inside in (paths[1] if len(paths) > 1 else {}).items():
        yield from _places(inside, place[key])
