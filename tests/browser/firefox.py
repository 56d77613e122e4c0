"""A Firefox without a window, driven over its own wire (Marionette) with the standard library alone.

Its profile lies in a folder, so that a restart is a restart. It finds no machine but this one.
"""
from __future__ import annotations

import base64
import contextlib
import json
import os
import socket
import subprocess
import time
from pathlib import Path
from typing import Any, Self

SCRIPT_MS = 120_000
WIRE_S = 150.0
START_S = 60.0
#: It asks nobody but this machine, tells nobody anything, and lets sound begin without a press.
PREFS: dict[str, object] = {
    "network.proxy.type": 1, "network.proxy.http": "127.0.0.1", "network.proxy.http_port": 9,
    "network.proxy.ssl": "127.0.0.1", "network.proxy.ssl_port": 9, "network.proxy.no_proxies_on": "127.0.0.1",
    "network.proxy.allow_hijacking_localhost": False, "marionette.port": 0, "app.update.enabled": False,
    "datareporting.policy.dataSubmissionEnabled": False, "toolkit.telemetry.enabled": False,
    "browser.shell.checkDefaultBrowser": False, "browser.aboutwelcome.enabled": False,
    "datareporting.policy.dataSubmissionPolicyBypassNotification": True, "termsofuse.bypassNotification": True,
    "browser.startup.homepage_override.mstone": "ignore", "browser.startup.page": 0, "dom.max_script_run_time": 0,
    "media.autoplay.default": 0, "media.autoplay.blocking_policy": 0, "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False, "services.settings.server": "data:,",
    "intl.accept_languages": "en-GB",
}
COMMANDS = {"url": "Navigate", "execute/async": "ExecuteAsyncScript", "actions": "PerformActions",
            "screenshot": "TakeScreenshot"}
#: What the page's own scripts complained of, from this machine's pages alone.
COMPLAINTS = r"""
  const said = Services.console.getMessageArray().filter(m => m instanceof Ci.nsIScriptError)
    .filter(m => /127\.0\.0\.1/.test(m.sourceName + m.errorMessage) && !(m.flags & Ci.nsIScriptError.warningFlag))
    .map(m => `${m.category} ${m.errorMessage}`);
  return said;"""


class Refused(Exception):
    """Firefox refused a command."""


class Firefox:
    """One window. As a context manager it ends with its process."""

    def __init__(self, program: str, profile: Path, size: tuple[int, int] = (412, 915)) -> None:
        self.program, self.profile, self.size = program, profile, size
        self.log = profile.with_suffix(".log")
        profile.mkdir(parents=True, exist_ok=True)
        self._number = 0
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> Self:
        """Starts it with its profile."""
        (self.profile / "user.js").write_text("".join(
            f"user_pref({json.dumps(name)}, {json.dumps(value)});\n" for name, value in PREFS.items()))
        told = self.profile / "MarionetteActivePort"
        told.unlink(missing_ok=True)
        command = [self.program, "--headless", "--marionette", "--remote-allow-system-access", "--no-remote",
                   "--profile", str(self.profile)]
        with self.log.open("ab") as log:
            self._process = subprocess.Popen(command, stdout=log, stderr=log, env={
                **os.environ, "HOME": str(self.profile), "MOZ_HEADLESS_WIDTH": "1400", "MOZ_HEADLESS_HEIGHT": "1200"})
        self._wire = socket.create_connection(("127.0.0.1", self._port(told)))
        self._wire.settimeout(WIRE_S)
        self._read()
        self._send("WebDriver:NewSession", {"pageLoadStrategy": "none"})
        self._send("WebDriver:SetTimeouts", {"script": SCRIPT_MS, "pageLoad": SCRIPT_MS})
        self._fit()
        return self

    def _port(self, told: Path) -> int:
        end = time.monotonic() + START_S
        while not (told.is_file() and told.read_text().strip()):
            goes = self._process and self._process.poll() is None and time.monotonic() < end
            assert goes, self.log.read_text()[-2000:]
            time.sleep(0.1)
        return int(told.read_text())

    def _fit(self) -> None:
        """Makes the page, and not the window round it, as large as wanted."""
        width, height = self.size
        self._send("WebDriver:SetWindowRect", {"width": width, "height": height})
        inside = self.js("return [innerWidth, innerHeight]")
        self._send("WebDriver:SetWindowRect", {"width": 2 * width - inside[0], "height": 2 * height - inside[1]})

    def quit(self) -> None:
        """Ends it; the profile stays."""
        process, self._process = self._process, None
        if process is None:
            return
        with contextlib.suppress(Refused, OSError, ValueError):
            self._send("Marionette:Quit", {"flags": ["eForceQuit"]})
        with contextlib.suppress(OSError):
            self._wire.close()
        try:
            process.wait(15)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()

    def __enter__(self) -> Self:
        return self.start()

    def __exit__(self, *_: object) -> None:
        self.quit()

    # -------------------------------------------------------------- the wire

    def _read(self) -> Any:
        size = b""
        while not size.endswith(b":"):
            size += self._some(1)
        left, parts = int(size[:-1]), list[bytes]()
        while left:
            parts.append(self._some(min(left, 1 << 16)))
            left -= len(parts[-1])
        return json.loads(b"".join(parts))

    def _some(self, most: int) -> bytes:
        got = self._wire.recv(most)
        if not got:
            raise Refused("Firefox has gone")
        return got

    def _send(self, name: str, params: dict[str, Any]) -> Any:
        self._number += 1
        data = json.dumps([0, self._number, name, params]).encode()
        self._wire.sendall(str(len(data)).encode() + b":" + data)
        _, _, error, result = self._read()
        if error:
            raise Refused(f"{error['error']}: {error['message'][:500]}")
        return result["value"] if isinstance(result, dict) and "value" in result else result

    # -------------------------------------------------------------- commands

    def go(self, address: str) -> None:
        """To an address; does not wait for it."""
        self._send("WebDriver:Navigate", {"url": address})

    def js(self, body: str, *args: Any) -> Any:
        """The value of an async function's body in the page, in a world beside the page's own."""
        script = ("const done = arguments[arguments.length - 1];"
                  f"(async (...args) => {{ {body} }})(...arguments)"
                  ".then(value => done({value: value === undefined ? null : value}),"
                  " error => done({error: String(error)}));")
        answer = self._send("WebDriver:ExecuteAsyncScript", {"script": script, "args": list(args)})
        if not isinstance(answer, dict) or "error" in answer:   # nothing: the page went away meanwhile
            raise Refused(str(answer and answer["error"]))
        return answer["value"]

    def within(self, script: str) -> None:
        """Runs a script in the page's own world, as a part of it that its policy allows."""
        self.js("const s = document.createElement('script'); s.src = URL.createObjectURL(new Blob([args[0]],"
                " {type: 'text/javascript'})); document.documentElement.append(s);"
                " await new Promise(done => { s.onload = done; s.onerror = done; });", script)

    def click(self, x: float, y: float) -> None:
        """Presses with the pointer."""
        self._send("WebDriver:PerformActions", {"actions": [{
            "type": "pointer", "id": "mouse", "parameters": {"pointerType": "mouse"}, "actions": [
                {"type": "pointerMove", "duration": 0, "x": round(x), "y": round(y), "origin": "viewport"},
                {"type": "pointerDown", "button": 0}, {"type": "pause", "duration": 60},
                {"type": "pointerUp", "button": 0}]}]})

    def keys(self, text: str) -> None:
        """Types."""
        strokes = [{"type": kind, "value": one} for one in text for kind in ("keyDown", "keyUp")]
        self._send("WebDriver:PerformActions", {"actions": [{"type": "key", "id": "keys", "actions": strokes}]})

    def shot(self) -> bytes:
        """A PNG of what is seen."""
        return base64.b64decode(self._send("WebDriver:TakeScreenshot", {"full": False}))

    def complaints(self) -> list[str]:
        """Errors on the console."""
        self._send("Marionette:SetContext", {"value": "chrome"})
        try:
            said: list[str] = self._send("WebDriver:ExecuteScript", {"args": [], "script": COMPLAINTS})
            return said
        finally:
            self._send("Marionette:SetContext", {"value": "content"})
