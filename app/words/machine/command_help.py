"""What `evenload COMMAND --help` says. Knows no Flet.

With `--json` a command prints one object on standard output. Its fields stand here; more may come, none goes away.
"""
from __future__ import annotations

PROGRAM = "Home strength sessions that adapt to the person doing them."
GENERAL = """Where a file is expected, - stands for standard input, or after -o for standard output.
`evenload COMMAND --help` explains a command; `evenload FILE.evenload-pack` opens the app with that programme file.

Exit status: 0 for success; 1 when the answer is no, such as a failed check; 2 when an argument or a file is wrong, with
one sentence on standard error; 70 for an unexpected error, with a log file that contains none of your records.
"""
DATA = "the data directory (or EVENLOAD_DATA)"
VERBOSE = "prints progress on standard error"
VERSION = "prints the version of this app"
JSON = "prints the result as JSON; the fields are listed below"

SEAL_WITH = "seals the copy under the passphrase in this file's first line; - asks, or reads standard input"
OPEN_WITH = "the passphrase of a sealed copy, in this file's first line; else it is asked for"
KEYS_WITH = "the passphrase of your keys, where they are locked, in this file’s first line; else it is asked for"

SUMMARIES = {
    "open": "opens the app in the browser, on this machine only",
    "demo": "opens the app with a demo coach, three clients and six weeks of records",
    "check": "proofreads a source, or verifies a programme file, a diary or a message",
    "pack": "builds and signs a programme file from a folder of TOML",
    "timeline": "builds a session for a client, a place and a diary",
    "cues": "writes a session’s sound as a WAV file: tones at their exact moments, and spoken lines",
    "intake": "adds diaries to the coach’s records",
    "review": "prints who needs attention: who needs a call, whose programme to review, who hasn’t been heard from",
    "make-app": "makes a coach’s own app: a folder for any web host, which then works offline",
    "serve": "shows such a folder in the browser, on this machine only",
    "load": "works out weekly load, monotony and strain from a table of sessions",
    "keys": "prints the coach’s key and its matching words",
    "backup": "writes a copy of all records, programmes and keys",
    "restore": "replaces the records with a copy",
    "erase": "erases everything in the data directory",
}

_FILES = """The files are JSON; leave out what doesn’t apply. A question left out of the diary counts as
unanswered. Body parts: neck shoulder elbow wrist back hip knee ankle, with "left " or "right " before them.

  client  {"spare": {"wrist": 1}, "conditions": ["osteoporosis"], "alone": true, "kit": ["chair", "dumbbell"],
           "weights_kg": [2, 4],
           "rest_side": {"side": "left", "limb": "arm", "because": "plaster"},
           "usual_pain": {"left knee": {"level": 3, "agreed_with": "physiotherapist", "until": "2027-03-31"}}}
  place   {"kit": ["chair"], "floor": true, "noise": false, "space": "small", "bed": true, "minutes": 20}
  diary   {"symptoms": [], "pain": {"right hip": 5}, "pain_rise": {}, "soreness": {}, "slept": 4, "energy": 4,
           "calm": 4, "last": {"days_ago": 3, "rpe": 5, "target_rpe": 5, "completed": 1.0, "pain": 2}}
"""

#: Examples, and with `--json` the fields.
DETAILS = {
    "open": """Example: evenload open --data ~/evenload
Press Ctrl+C to stop. A copy of the records is made once a day.
""",
    "demo": """Example: evenload demo --no-browser
Press Ctrl+C to stop. Your own records are not touched.
""",
    "check": """Examples: evenload check FOLDER
          evenload check - < NAME.evenload-return
Exit 1 if a problem blocks publishing.

--json, for a source or a programme file: kind, coach, version, title, sessions, exercises, programmes, problems; for a
  programme file also words, sha256. For a diary: kind, person, number, made, records, problems. For a message: kind,
  coach, number, made, problems. Each of the problems: rule, where, text, value, limit, mend, blocks.
""",
    "pack": """Examples: evenload pack FOLDER -o NAME.evenload-pack
          evenload pack FOLDER -o - | ssh HOST 'cat > NAME.evenload-pack'
Exit 1, and nothing is written, if a problem blocks publishing. With -o - other output goes to standard error.

--json: file, coach, version, words, problems (as for check); if blocked, only problems.
""",
    "timeline": f"""Example: evenload timeline FOLDER SESSION --place "hotel room" --diary diary.json
Exit 1 if there is no session today. One of the files can be -.

{_FILES}
--json: session, total_s, steps, dose, substitutions, left_out, one_sided.
  Each of the steps: kind, block, exercise, side, round, reps, load_kg, start_ms, length_ms, written, to_floor,
  stage. The dose: level, rounds, work, rest, load (percent), reasons, rules_version.
""",
    "cues": f"""Examples: evenload cues NAME.evenload-pack SESSION -o session.wav
          evenload cues NAME.evenload-pack SESSION -o - | aplay
Exit 1, and nothing is written, if there is no session today. With -o - other output goes to standard error.

{_FILES}
--json: file, session, rate (samples a second), samples, total_s, sounds. Each of the sounds: kind, sample, position_ms.
""",
    "intake": """Examples: evenload intake *.evenload-return
          evenload intake - < NAME.evenload-return
A folder means every diary in it. Each is added whole or not at all, and adding one twice is harmless. Exit 1 if one
was refused, 2 if all were.

--json: taken, refused. Each of those taken: file, person, new, newer, same, older, misdated (records with
  impossible dates), clock_is_wrong, resembles; of those refused: file, error.
""",
    "review": """Example: evenload review --json

--json: harm, progress, silence, people (how many the desk knows). Each item: person, id, because, on, text, evidence.
""",
    "make-app": """Example: evenload make-app --brand brand.toml --shell shell.zip -o my-app

--json: name, folder, files, bytes.
""",
    "serve": """Example: evenload serve my-app
Press Ctrl+C to stop.
""",
    "load": """Examples: evenload load sessions.csv
          evenload load - --json < sessions.csv
The table has a row for each session: date (2026-03-02), minutes, rpe (0 to 10).

--json: weeks, days. Each of the weeks: start, load, monotony, strain; of the days: date, load, acute, chronic, ratio.
""",
    "keys": """Example: evenload keys
Private keys and the recovery words are never printed. Exit 1 if no keys have been made yet.

--json: coach, key, words, sheet_waits (the recovery words are still on this computer).
""",
    "backup": """Examples: evenload backup -o evenload-copy.db
          evenload backup -o records.evenload-copy --passphrase-file -
Works while the app is open too. With --passphrase-file the copy is sealed, and nobody can find out a lost passphrase.
Without it, anyone who can read the copy can read the diaries and sign as the coach. The passphrase has 15 characters or
more, and is never an argument, since others on this machine can read those.

--json: file, bytes, sealed.
""",
    "restore": """Examples: evenload restore
          evenload restore evenload-copy.db
Close the app first. The old records are set aside, not deleted. At a terminal you are asked for the passphrase of a
sealed copy.

--json: from, kept (the name of what was set aside).
""",
    "erase": """Example: evenload erase --data ~/evenload --yes
Close the app first. You can’t undo this. Exit 1 without --yes, or if another app still has the records open.
Erased rows are overwritten with zeros. Files that are deleted whole, such as copies and pictures, are released to the
system, which may leave their contents on the disk until it needs the space. Only an encrypted disk hides those.

--json: erased, complete, left (files that aren’t the app’s own, which it leaves alone).
""",
}
