"""The same around the records: the store and its copies, erasing, the way in, and what is made for others."""
from __future__ import annotations

from tests.faults.planted import Fault

SQLITE, DATABASE, COPIES, RECORDS = (f"app/storage/{m}.py" for m in ("sqlite_file", "database", "copies", "records"))
ERASING, BESIDE, ROWS, TEXT = (f"app/storage/{m}.py" for m in ("erasing", "beside", "row_checks", "checked_text"))
GATE, WAY, HALF = (f"app/serving/{m}.py" for m in ("gate", "way_in", "half_open"))
ACTS, LOCK, TRACKS, MAKING = ("app/actions/erasing.py", "app/device/in_use.py", "app/device/track_folder.py",
                              "app/actions/desk/web_app_build.py")
T_BASE, T_COPIES, T_DAMAGE, T_ERASING = (
    f"tests/storage/test_{m}.py" for m in ("database", "copies", "damage", "erasing"))
T_GATE, T_SERVER, T_HALF = (f"tests/serving/test_{m}.py" for m in ("gate", "server", "half_open"))
T_ACTS, T_LOCK, T_TRACK, T_MAKING = ("tests/actions/test_erasing.py", "tests/device/test_in_use.py",
                                     "tests/device/test_track_folder.py", "tests/actions/desk/test_web_app_build.py")

FAULTS: tuple[Fault, ...] = (
    # the store
    Fault("the disk is not waited for", SQLITE, '"synchronous = FULL"', '"synchronous = OFF"', T_BASE),
    Fault("freed pages keep their bytes", SQLITE, '"secure_delete = ON"', '"secure_delete = OFF"', T_BASE),
    Fault("rows may refer to nothing", SQLITE, '"foreign_keys = ON"', '"foreign_keys = OFF"', T_BASE),
    Fault("anybody may read the store", COPIES, "os.O_CREAT | os.O_RDWR, 0o600", "os.O_CREAT | os.O_RDWR, 0o644",
          T_BASE),
    Fault("an emptied store is a new one", DATABASE, "if size == 0 and (_mark_of(path).exists() or copies(path)):",
          "if False:", T_DAMAGE),
    Fault("rows are not looked at when it is opened", DATABASE, "            _assert_rows(store.path)\n",
          "            pass\n", T_DAMAGE),
    Fault("a record's digest is not compared", TEXT,
          'if not is_unchanged(text.encode("utf-8"), digest.encode("utf-8")):', "if False:", T_DAMAGE),
    Fault("a text's own digest is not compared", TEXT, "    if check and _digest(body) != check:", "    if False:",
          T_DAMAGE),
    Fault("mended with another state", ROWS, "        if told[0] != told[1] and parted(here)[0] != parted(there)[0]:",
          "        if False:", T_DAMAGE),
    Fault("mended from a damaged copy", ROWS,
          "        if not is_unchanged(there, _bytes(theirs[digest]) if digest else None):", "        if False:",
          T_DAMAGE),
    Fault("what the desk reads is not compared", DATABASE, "        mend_columns(db, COMPARED_RECORDS)\n",
          "        pass\n", T_DAMAGE),
    # copies
    Fault("a copy is not read through", COPIES, "    if not is_whole(part):\n", "    if False:\n", T_DAMAGE),
    Fault("indexes of a copy are not looked at", COPIES, "integrity_check(1)", "quick_check(1)", T_DAMAGE),
    Fault("rows of a copy are not compared", COPIES, " and not changed_rows(db)", "", T_DAMAGE),
    Fault("a damaged copy is put back", COPIES, "    if not is_whole(copy):\n", "    if False:\n", T_DAMAGE),
    Fault("the newest copies go", COPIES, "copies(path)[:-KEEP]", "copies(path)[KEEP:]", T_COPIES),
    # erasing
    Fault("a person erased without sweep", ACTS, "settings.forget_setting(db, ROLE)\n    sweep_after_erasing(store)\n",
          "settings.forget_setting(db, ROLE)\n", T_ACTS),
    Fault("everything erased without sweep", ACTS, "erase_everything(db)\n    sweep_after_erasing(store)\n",
          "erase_everything(db)\n", T_ACTS),
    Fault("a busy journal counts as emptied", ERASING, "        if is_busy:\n", "        if False:\n", T_ERASING),
    Fault("files set aside stay", ERASING, "            if wanted:\n", "            if False:\n", T_ERASING),
    Fault("what lies beside stays", ERASING, "        if wanted == EVERYTHING:\n", "        if False:\n", T_ERASING),
    Fault("a sweep that was cut off is forgotten", ERASING, "        save_setting(db, UNSWEPT, PERSON)\n",
          "        pass\n", T_ERASING),
    Fault("nobody sweeps at the next start", DATABASE, "    finish_erasing(store)\n", "", T_ERASING),
    Fault("somebody else's archive goes", BESIDE, "if _holds(p, names.APP_LISTING))", "if p.is_file())", T_ERASING),
    Fault("a link is followed", BESIDE,
          "if place.is_dir() and not place.is_symlink():\n                shutil.rmtree(place)",
          "if place.is_dir():\n                shutil.rmtree(place.resolve())", T_ERASING),
    # the way in
    Fault("a key opens again", WAY, "        self._unspent.discard(brought)\n", "", T_GATE),
    Fault("every start has the same cookie", WAY, "self.cookie = secrets.token_urlsafe(32)", 'self.cookie = "0" * 43',
          T_GATE),
    Fault("the key is a cookie too", WAY, "return hmac.compare_digest(brought.encode(), self.cookie.encode())",
          "return brought == self.cookie or self.holds(brought)", T_GATE),
    Fault("anybody may read the way in", WAY, 'os.O_EXCL, 0o600), "w"', 'os.O_EXCL, 0o644), "w"', T_SERVER),
    Fault("any host will do", GATE, "return len(host) == 1 and host[0] in self._hosts", "return True", T_GATE),
    Fault("a websocket of any origin", GATE, "and origin and set(origin) <= self._origins and self._has_cookie(scope):",
          "and self._has_cookie(scope):", T_GATE),
    Fault("other sites send the cookie", GATE, "SameSite=Strict", "SameSite=None", T_GATE),
    Fault("what begins like an icon is open", GATE, 'OPEN_PATHS.fullmatch(scope["path"])',
          'OPEN_PATHS.match(scope["path"])', T_GATE),
    Fault("anybody's page may hold ours in a frame", GATE, '        (b"x-frame-options", b"DENY"),\n', "", T_GATE),
    Fault("any ancestor may frame it", GATE, '        "frame-ancestors \'none\'",\n', "", T_GATE),
    Fault("half-open connections pile up", HALF, "        while len(self._waiting) > self.most:\n",
          "        while False:\n", T_HALF),
    Fault("a head without end", HALF, "MOST_HEAD = 16 * 1024", "MOST_HEAD = 1 << 30", T_HALF),
    Fault("two may have one directory", LOCK, "        if not _locked(handle):\n", "        if False:\n", T_LOCK),
    # what is made for others
    Fault("a listing deletes elsewhere", MAKING, "if is_safe_path(name) and _stays_in(folder, name)}", "}", T_MAKING),
    Fault("written through a link", MAKING, "    if strays:\n", "    if False:\n", T_MAKING),
    Fault("anybody may read the tracks", TRACKS, "os.open(name, flags, 0o600)", "os.open(name, flags, 0o644)", T_TRACK),
)
