"""The whole loop in a process that reaches nothing but itself: `python -m tests.trust.network_cut`.

Prints what was asked for, one name a line, and then `done`. With `--ask` it asks for an address itself, to show that
it would be noticed.
"""
from __future__ import annotations

import socket
import sys
import tempfile
from contextlib import suppress
from ipaddress import ip_address
from pathlib import Path
from typing import Any

#: What leads out of a process, as Python tells of it before it is done.
LEADS_OUT = ("socket.connect", "socket.getaddrinfo", "socket.gethostbyname", "socket.gethostbyaddr", "socket.sendto",
             "socket.sendmsg", "socket.bind")


class Cut(OSError):
    """There is no network."""


def is_here(address: object) -> bool:
    """Whether it is this machine, or no address on a network at all."""
    host = address[0] if isinstance(address, tuple) else address
    if host in (None, "", b"", "localhost", b"localhost"):
        return True
    try:
        return ip_address(str(host)).is_loopback
    except ValueError:
        return str(host).startswith("/")


def cut(asked: list[str]) -> None:
    """From here on whatever leads out is noted and refused, for as long as the process lives."""
    def refuse(event: str, arguments: tuple[Any, ...]) -> None:
        if event not in LEADS_OUT:
            return
        address = arguments[0] if event.startswith("socket.get") else arguments[1]
        if isinstance(arguments[0], socket.socket) and arguments[0].family == getattr(socket, "AF_UNIX", None):
            return
        if not is_here(address):
            asked.append(f"{event} {address}")
            raise Cut(f"no network: {address}")
    sys.addaudithook(refuse)


def loop(folder: Path) -> None:
    """A programme opened, a check-in, a session, a return, its intake, the list, the answer, and the answer opened."""
    from app.actions.desk import attention_list, intake, replying
    from app.actions.files import messages, sending
    from tests.exchange.fixed import ADA, run
    from tests.trust.undertakings import UNDERTAKINGS, World, desk, phone
    phone(folder / "phone")
    desk(folder / "desk")
    client, coach = World(folder / "phone"), World(folder / "desk")
    for step in (*UNDERTAKINGS["session"].steps(), *UNDERTAKINGS["check-in"].steps()):
        step(client)
    made = run(sending.make_return(client.store, client.clock, ADA.id))
    taken, = run(intake.take_in(coach.store, client.clock, [(made.name, made.data)]))
    assert taken.error is None and taken.new > 0
    attention_list.attention_list(coach.store, client.clock)
    written = run(replying.write(coach.store, client.clock, ADA.id, replying.ReplyDraft("Well done.")))
    assert run(messages.receive(client.store, client.clock, ADA.id, written.data, written.name)).message.text
    client.store.close()
    coach.store.close()


def main() -> int:
    """1 where anything was asked for."""
    asked: list[str] = []
    cut(asked)
    with tempfile.TemporaryDirectory() as folder:
        loop(Path(folder))
    if "--ask" in sys.argv:
        with suppress(Cut):
            socket.create_connection(("192.0.2.1", 80), timeout=1)
    print(*asked, "done", sep="\n")
    return 1 if asked else 0


if __name__ == "__main__":
    sys.exit(main())
