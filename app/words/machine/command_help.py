"""What `evenload COMMAND --help` says. Knows no Flet.

With `--json` a command prints one object on standard output. Its fields stand here; more may come, none goes away.
"""
from __future__ import annotations

PROGRAM = "Home strength sessions that answer to the body that does them."
GENERAL = """Where a file is expected, - stands for standard input, or after -o for standard output.
`evenload COMMAND --help` explains a command; `evenload FILE.evenload-pack` opens the app with that programme.

Exit status: 0 done; 1 the answer is no, such as a check that failed; 2 something given was wrong, with one sentence on
standard error; 70 something unexpected, with a log file that holds none of your records.
"""
DATA = "the data directory (or EVENLOAD_DATA)"
VERBOSE = "says on standard error what is being done"
VERSION = "the version of this program"
JSON = "prints the result as JSON; the fields are listed below"

SUMMARIES = {
    "open": "opens the app in the browser, on this machine only",
    "demo": "opens it on a demo coach, three clients and six weeks of records",
    "check": "proofreads a source, verifies a pack, a return or a reply",
    "pack": "builds and signs a pack from a folder of TOML",
    "timeline": "compiles a session for a client, a place and a diary",
    "cues": "writes the sound of a session as a WAV file: tones at their exact moments, spoken lines",
    "intake": "takes returns into the coach's store",
    "review": "prints who needs attention: harm first, then progress, then silence",
    "source": "takes a source over from a folder of TOML onto the coach's shelf, or writes it as one",
    "make-app": "makes a coach's own app: a folder for any web host, which then works offline",
    "serve": "shows such a folder in the browser, on this machine only",
    "load": "works out weekly load, monotony and strain from a table of sessions",
    "keys": "prints the coach's key and its matching words",
    "backup": "writes a copy of all records, programmes and keys",
    "restore": "puts a copy in the place of the records",
    "erase": "erases everything in the data directory",
}

_FILES = """The files are JSON; leave out what does not apply. A question left out of the diary counts as
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
Ctrl+C ends it. A copy of the records is set aside once a day.
""",
    "demo": """Example: evenload demo --no-browser
Ctrl+C ends it. Nobody's records are touched.
""",
    "check": """Examples: evenload check FOLDER
          evenload check - < NAME.evenload-return
Exit 1 where something blocks publishing.

--json, of a source or a pack: kind, coach, version, title, sessions, exercises, programmes, problems; of a pack also
  words, sha256. Of a return: kind, person, number, made, records, problems. Of a reply: kind, coach, number, made,
  problems. Each of the problems: rule, where, text, value, limit, mend, blocks.
""",
    "pack": """Examples: evenload pack FOLDER -o NAME.evenload-pack
          evenload pack FOLDER -o - | ssh HOST 'cat > NAME.evenload-pack'
Exit 1, and nothing written, where a problem blocks publishing. With -o - what would be printed goes to standard error.

--json: file, coach, version, words, problems (as of check); where it is blocked, problems alone.
""",
    "timeline": f"""Example: evenload timeline FOLDER SESSION --place "hotel room" --diary diary.json
Exit 1 where today gives no session. One of the files may be -.

{_FILES}
--json: session, total_s, steps, dose, substitutions, left_out, one_sided.
  Each of the steps: kind, block, exercise, side, round, reps, load_kg, start_ms, length_ms, written, to_floor,
  stage. The dose: level, rounds, work, rest, load (percent), reasons, rules_version.
""",
    "cues": f"""Examples: evenload cues NAME.evenload-pack SESSION -o session.wav
          evenload cues NAME.evenload-pack SESSION -o - | aplay
Exit 1, and nothing written, where today gives no session. With -o - what would be printed goes to standard error.

{_FILES}
--json: file, session, rate (samples a second), samples, total_s, sounds. Each of the sounds: kind, sample, position_ms.
""",
    "intake": """Examples: evenload intake *.evenload-return
          evenload intake - < NAME.evenload-return
A folder stands for every return in it. Each is taken in whole or not at all, twice is harmless. Exit 1 if one was
refused, 2 if all were.

--json: taken, refused. Each of those taken: file, person, new, newer, same, older, misdated (records whose
  dates cannot be), clock_is_wrong, resembles; of those refused: file, error.
""",
    "review": """Example: evenload review --json

--json: harm, progress, silence, people (how many the desk knows). Each item: person, id, because, on, text, evidence.
""",
    "source": """Examples: evenload source import FOLDER
          evenload source export NEW-FOLDER
What is imported stands in the place of the source with its id, whose drafts go. An export holds what is written now,
drafts included, with figures, pictures and recorded lines; imported again it is the same source. Lines of # are not
kept.

--json: source, folder, exercises, sessions, programmes (how many).
""",
    "make-app": """Example: evenload make-app --brand brand.toml --shell shell.zip -o my-app

--json: name, folder, files, bytes.
""",
    "serve": """Example: evenload serve my-app
Ctrl+C ends it.
""",
    "load": """Examples: evenload load sessions.csv
          evenload load - --json < sessions.csv
The table has a row for each session: date (2026-03-02), minutes, rpe (0 to 10).

--json: weeks, days. Each of the weeks: start, load, monotony, strain; of the days: date, load, acute, chronic, ratio.
""",
    "keys": """Example: evenload keys
Private keys and the words of the recovery sheet are never printed. Exit 1 where no keys were made yet.

--json: coach, key, words, sheet_waits (the words of the sheet are still on this computer).
""",
    "backup": """Example: evenload backup -o evenload-copy.db
Also while the app is open. The copy is not sealed: whoever can read it can read the diaries and sign as the coach.

--json: file, bytes.
""",
    "restore": """Examples: evenload restore
          evenload restore evenload-copy.db
The app must not be open. What was there is set aside beside it, not deleted.

--json: from, kept (the name of what was set aside).
""",
    "erase": """Example: evenload erase --data ~/evenload --yes
The app must not be open. There is no way back. Exit 1 without --yes, and where another program keeps traces alive.
Erased rows are overwritten with zeros; files that are deleted whole, such as copies and pictures, are given back to the
system, which may leave their bytes on the disk until it needs the room. Only an encrypted disk hides those.

--json: erased, complete, left (what the program did not put there and leaves alone).
""",
}
