"""The client and the Python of the offline web app: taken from the installed `flet_web`, changed on the way.

Every change asserts that it found what it replaces, so that another release of Flet fails here and not at a client's.
"""
from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

from app.serving.client_page import notice_page

Files = dict[str, bytes]

OURS = Path(__file__).resolve().parent / "web"
ASSETS_OF_OURS = OURS.parents[1] / "assets"
PYODIDE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
#: Both engines: browsers built on Blink take the first, all others the second.
ENGINES = ("main.dart.mjs", "main.dart.wasm", "canvaskit/skwasm.js", "canvaskit/skwasm.wasm",
           "canvaskit/skwasm_heavy.js", "canvaskit/skwasm_heavy.wasm",
           "main.dart.js", "canvaskit/canvaskit.js", "canvaskit/canvaskit.wasm",
           "canvaskit/chromium/canvaskit.js", "canvaskit/chromium/canvaskit.wasm")
ASSETS = ("AssetManifest.bin", "AssetManifest.bin.json", "NOTICES", "fonts/MaterialIcons-Regular.otf",
          "fonts/roboto.woff2", "packages/cupertino_icons/assets/CupertinoIcons.ttf", "shaders/ink_sparkle.frag",
          "shaders/stretch_effect.frag", "packages/wakelock_plus/assets/no_sleep.js")
#: Where the client would fetch a player of animations that nothing here uses; both engines hold this address.
ELSEWHERE = b"https://cdn.jsdelivr.net/npm/@rive-app/flutter-native-wasm@44.0.0/"
#: As long, and never asked of any server.
NOWHERE = b"blob:" + b"-" * (len(ELSEWHERE) - 5)
#: Of ours, what the browser loads as a file of its own.
ALONE = ("page.js", "voice.js", "parts.mjs", "opfs_fs.mjs", "memory.mjs", "memory-worker.js", "sw.js")
#: In the page's head, in this order; the first two are the same wherever the client runs.
SCRIPTS = ("page/start_watch.js", "page/reach.js", "start.js", "page.js", "voice.js")
UNCHANGED = (*ENGINES, *(f"assets/{name}" for name in ASSETS), *(f"pyodide/{name}" for name in PYODIDE),
             "version.json")


class ChangedClient(Exception):
    """The installed client is not the one that these changes were written for; the message names the place."""


def client_files(web: Path) -> Files:
    """Everything that the page loads except what is ours and what is a brand's, by path. `web`: flet_web's folder."""
    files = {name: (web / name).read_bytes() for name in UNCHANGED}
    files |= {name: without_elsewhere(files[name], name) for name in ("main.dart.wasm", "main.dart.js")}
    index, inline = index_page((web / "index.html").read_text("utf-8"))
    texts = {
        "index.html": index,
        "start.js": inline + (OURS / "start.js").read_text("utf-8"),
        "flutter_bootstrap.js": bootstrap((web / "flutter_bootstrap.js").read_text("utf-8")),
        "python.js": page_python((web / "python.js").read_text("utf-8")),
        "python-worker.js": worker((web / "python-worker.js").read_text("utf-8")),
        "pyodide/pyodide-lock.json": lock((web / "pyodide/pyodide-lock.json").read_text("utf-8")),
    }
    ours = {name: (OURS / name).read_bytes() for name in ALONE}
    return files | ours | {name: text.encode() for name, text in texts.items()}


def without_elsewhere(engine: bytes, where: str) -> bytes:
    """The client's code without the one address of another host that it loads something from at each start.

    Raises:
        ChangedClient: it is not there exactly once.
    """
    if engine.count(ELSEWHERE) != 1:
        raise ChangedClient(f"{where}: expected once, found {engine.count(ELSEWHERE)} times: {ELSEWHERE.decode()}")
    return engine.replace(ELSEWHERE, NOWHERE)


def replace(text: str, old: str, new: str, where: str) -> str:
    """`text` with `old`, which must be there exactly once, replaced.

    Raises:
        ChangedClient: it is not there, or more than once.
    """
    if text.count(old) != 1:
        raise ChangedClient(f"{where}: expected once, found {text.count(old)} times: {old.strip()[:80]!r}")
    return text.replace(old, new)


def cut(text: str, pattern: str, where: str) -> str:
    """The one stretch of `text` that the pattern matches.

    Raises:
        ChangedClient: it matches nothing, or more than one.
    """
    found = re.findall(pattern, text, re.DOTALL)
    if len(found) != 1:
        raise ChangedClient(f"{where}: expected once, found {len(found)} times: {pattern!r}")
    return str(found[0])


def index_page(text: str) -> tuple[str, str]:
    """The page with places for a brand's words, and the scripts that stood in it.

    They move into a file, so that the content policy need not allow scripts within the page.
    """
    where, inline = "index.html", []
    for script in re.findall(r"[ \t]*<script>\n.*?</script>\n", text, re.DOTALL):
        text = replace(text, script, "", where)
        inline.append(script.strip().removeprefix("<script>").removesuffix("</script>"))
    if not any("var flet = {" in script for script in inline):
        raise ChangedClient(f"{where}: the client's settings are not there")
    for old, new in places(text):
        text = replace(text, old, new, where)
    return text, "".join(inline)


def places(text: str) -> list[tuple[str, str]]:
    """What is replaced in the page, and by what. `{{…}}` is filled when a brand is put in."""
    policy = '<meta http-equiv="Content-Security-Policy" content="{{policy}}">'
    colours = '<meta name="theme-color" content="{{theme}}">'
    return [
        ('<base href="/">', '<base href="./">'),
        ('<meta charset="UTF-8">', f'<meta charset="UTF-8">\n  {policy}\n  {colours}'),
        ('content="Flet application."', 'content="{{description}}"'),
        ('apple-mobile-web-app-title" content="Flet"', 'apple-mobile-web-app-title" content="{{short_name}}"'),
        ('<title>Flet</title>', '<title>{{name}}</title>'),
        ('<html>', '<html lang="en">'),
        ('<!-- fletAppConfig -->', "\n  ".join(f'<script src="{name}"></script>' for name in SCRIPTS)),
        ("<body>", f"<body>\n  {notice_page(ASSETS_OF_OURS, '{{name}}')}"),
        ('background: #ffffff;', 'background: {{ground}};'),
        ('background: #222222;', 'background: {{ground_dark}};'),
        ('icons/loading-animation.png', 'icons/icon-192.png'),
        (cut(text, r"        width: 200px;\n        max-width: 50vw;\n", "index.html"), "        width: 96px;\n"),
    ]


def bootstrap(text: str) -> str:
    """The client's loader without its own service worker, which would unregister ours; it waits for the version."""
    where = "flutter_bootstrap.js"
    text = replace(text, "\n_flutter.loader.load(", "\nflet.versionStays.then(() => _flutter.loader.load(", where)
    end = "        flet.flutterAppResolve(flet.flutterApp);\n    }\n})"
    text = replace(text, end + ";", end + ");", where)
    text = replace(text, cut(text, r"    serviceWorkerSettings: \{.*?\n    \},\n", where), "", where)
    return text.replace("//# sourceMappingURL=flutter.js.map\n", "")


def page_python(text: str) -> str:
    """Python begins with the page; the client adopts it when it connects, and begins another when it connects anew."""
    where = "python.js"
    started = cut(text, r"    app\.worker = new Worker\(.*?\{ type: \"module\" \}\);\n", where)
    posted = cut(text, r"    // initialize worker\n    app\.worker\.postMessage\(\{.*?\n    \}\);\n", where)
    text = replace(text, started, "    const begun = _begun ?? beginPython();\n    _begun = null;\n"
                                  "    app.worker = begun.worker;\n", where)
    text = replace(text, posted, "    for (const data of begun.said) app.worker.onmessage({ data });\n", where)
    return text + (OURS / "begin.js").read_text("utf-8")


def worker(text: str) -> str:
    """The worker lays our parts before Python runs, and the file system of the store stands ready as a module."""
    where = "python-worker.js"
    text = replace(text, "    try {\n        // Module-worker load path.",
                   "    try {\n        const kept = findKept(self.flet_js.args.memoryFailed), parts = fetchParts();\n"
                   "        kept.catch(() => {});\n        // Module-worker load path.", where)
    text = replace(text, '        self.pyodide.registerJsModule("flet_js", flet_js);\n',
                   '        self.pyodide.registerJsModule("flet_js", flet_js);\n'
                   '        self.pyodide.registerJsModule("store_files", storeFiles);\n'
                   '        await layParts(self.pyodide, parts);\n', where)
    text = replace(text, "self.pyodide = await loadPyodide({", "self.pyodide = await loadKept(loadPyodide, {", where)
    end = "            stderr: (text) => self.sendPythonOutput(text, true),\n        }"
    text = replace(text, end + ");", end + ", kept);", where)
    replace(text, 'if "script" not in py_args:', "", where)
    return ('import { findKept, loadKept } from "./memory.mjs";\n'
            'import { fetchParts, layParts } from "./parts.mjs";\n'
            'import * as storeFiles from "./opfs_fs.mjs";\n' + text)


def lock(text: str) -> str:
    """Pyodide's list of packages, without any: ours come by themselves."""
    known: Mapping[str, object] = json.loads(text)
    if not {"info", "packages"} <= known.keys():
        raise ChangedClient("pyodide-lock.json: another form")
    return json.dumps({**known, "packages": {}})
