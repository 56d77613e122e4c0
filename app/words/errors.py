"""Words for what went wrong, for screens and commands alike. Knows no Flet."""
from __future__ import annotations

from collections.abc import Callable, Mapping

from app.domain import errors as e

BROWSERS = "Chrome, Edge, Firefox or Safari"
"""Those that people know by name, and that the app is made for."""


def _findings(found: object) -> str:
    """Worded only when asked for: what a figure is made of takes long to load, and a refused one is rare."""
    from app.words.moving_figures import findings_line

    return findings_line(found)


def _known(names: object) -> str:
    words = list(names) if isinstance(names, (tuple, list)) else []
    return f" Known: {', '.join(map(str, words[:24]))}." if words else ""


def _at(where: object) -> str:
    """Where it stands, if that is known."""
    return f"{where}: there is" if where else "There is"


def _value(value: object) -> str:
    """What was given, as it is written in a file."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"“{value}”" if isinstance(value, str) else str(value)


def _damaged(path: str, kept: str) -> str:
    """Whether it was moved or is where it was: nothing is deleted, and there is a way back."""
    what = f"They were set aside as {kept}" if kept != path else "They were left as they are"
    return (f"The records in {path} are damaged: something in them is not what was written. {what}; nothing was "
            "deleted. `evenload open --restore` goes back to the last good copy.")


#: Of a file of another kind than asked for: what it is, and where it goes.
OTHER_KINDS: Mapping[str, str] = {
    "pack": "{name} is a programme. Open it under Programme; nothing was taken in here.",
    "return": "{name} is a diary for a coach, who opens it at the desk; nothing was taken in here.",
    "reply": "{name} is a message from a coach. Open it under Send; nothing was taken in here.",
}


def _size(found: object) -> str:
    """`0.25 MB`."""
    return f"{int(found) / 1_000_000:.2f} MB" if isinstance(found, int) else str(found)


ERRORS: Mapping[type[e.AppError], Callable[[Mapping[str, object]], str]] = {
    e.UnknownName: lambda w: (f"{_at(w.get('where'))} no {w['kind']} called “{w['name']}”."
                              f"{_known(w.get('known'))}"),
    e.WrongValue: lambda w: f"{w['where']}: {_value(w['value'])} will not do; expected {w['expected']}.",
    e.UnreadableSource: lambda w: f"{w['where']} cannot be read: {w['why']}.",
    e.BadFigure: lambda w: f"{w['where']} cannot be shown: {_findings(w['findings'])}.",
    e.PoorContrast: lambda w: (
        f"{w['where']}, {w['theme']}: {w['words']} ({w['words_colour']}) on {w['ground']} ({w['ground_colour']}) has a "
        f"contrast of {w['ratio']:.1f} to 1, and {w['least']:.1f} is needed. Choose a darker or a paler one."),
    e.TooShort: lambda w: (f"“{w['session']}” needs at least {-(-int(str(w['least_s'])) // 60)} minutes today; "
                           f"{int(str(w['asked_s'])) // 60} are too few."),
    e.NotOurFile: lambda w: (OTHER_KINDS[str(w["found"])].format(**w) if w.get("found") in OTHER_KINDS else
                             f"{w['name']} is no programme, diary or message that this app knows. Nothing was taken in."
                             ),
    e.NewerFormat: lambda w: (f"{w['name']} was written by a newer version ({w['found']}); this one reads up to "
                              f"{w['known']}. Update first; nothing was taken in."),
    e.DamagedFile: lambda w: (f"{w['name']} is damaged ({w['why']}). Nothing was taken in; ask for it to be sent "
                              f"again."),
    e.UntrustedSigner: lambda w: (f"{w['name']} is signed by a key that is not {w['who']}’s. Nothing was taken in; "
                                  f"ask them in person."),
    e.WrongRecipient: lambda w: f"{w['name']} was sealed for somebody else and cannot be opened here.",
    e.TooLarge: lambda w: (f"{w['name']} is larger than allowed ({w['found']}, limit {w['limit']}). Nothing was "
                           "taken in."),
    e.TooLargeToPaste: lambda w: (f"{w['name']} is too large to paste ({_size(w['found'])}, at most "
                                  f"{_size(w['limit'])}); choose the file."),
    e.AnotherKey: lambda w: (f"{w['name']} is another key than the one that this device knows for {w['who']}. Nothing "
                             "was taken in; ask them in person."),
    e.NotFollowed: lambda w: (f"{w['name']} is from {w['who']}, whose programme is not followed here now. Nothing was "
                              f"taken in. If {w['who']} coaches you now, choose their programme first, then open it "
                              "again."),
    e.RetiredKey: lambda w: (f"{w['name']} is signed with a key that {w['who'] or 'its coach'} has replaced. Nothing "
                             "was taken in; ask them in person whether it is theirs."),
    e.OlderKeys: lambda w: (f"{w['name']} brings other keys for {w['who']}, and they are not newer than those known "
                            "here. Nothing was taken in. See that the date of this device is right, and ask them in "
                            "person."),
    e.Elsewhere: lambda w: (f"{w['name']} lies elsewhere. A link opens only what lies beside this app, at its own "
                            "address; nothing was fetched."),
    e.NothingThere: lambda w: (f"There is no {w['name']} beside this app. Nothing was taken in; ask for the link to be "
                               "sent again, or for the file."),
    e.NoNetwork: lambda w: (f"{w['name']} could not be fetched: there is no network, or nobody answers. Nothing was "
                            "changed; try again later, or choose the file."),
    e.NoLinks: lambda w: (f"A link to {w['name']} opens only where the app lies at an address on the web. Here, choose "
                          "the file or paste its text."),
    e.UnsafeEntry: lambda w: f"{w['name']} holds an entry that may not be there ({w['entry']}). Nothing was taken in.",
    e.NewerDatabase: lambda w: (f"The records in {w['path']} were written by a newer version ({w['found']}). "
                                f"Update first; nothing was changed."),
    e.DamagedDatabase: lambda w: _damaged(str(w["path"]), str(w["kept"])),
    e.EraseUnfinished: lambda w: (f"It is erased, but another program still has {w['path']} open, and traces stay in "
                                  "the journal beside it until it lets go. Close it; the next time the app is "
                                  "opened, it finishes by itself."),
    e.NoCopy: lambda w: f"There is no good copy of {w['path']} to go back to. Nothing was changed.",
    e.NoAccess: lambda w: f"{w['path']} cannot be read or written. Look at its rights, or choose another folder.",
    e.NotOurStore: lambda w: f"{w['path']} is a database of another program. It was not touched.",
    e.NoPrivateFiles: lambda w: ("The app keeps everything on your own device, and this window gives it no place for "
                                 "that: it may be a private window, an address without https, or a browser that "
                                 f"cannot do it. Open it in an ordinary window of an up-to-date {BROWSERS}. Anything "
                                 "that you saved in another window is still there."),
    e.PortTaken: lambda w: f"Port {w['port']} cannot be had; leave --port away, or choose another.",
    e.NoRoom: lambda w: "There is no room left on this device. Nothing was lost; free some space and try again.",
    e.AlreadyOpen: lambda w: ("The app is already open with these records. "
                              + (f"Go on there: open {w['page']} in your browser. Or close it first." if w.get("page")
                                 else "Close it there first.")),
    e.StoreBusy: lambda w: "The app is already open elsewhere with these records. Close it there first.",
}


def _in_a_line(said: str) -> str:
    """What was given may hold anything, also what a terminal would obey."""
    return " ".join("".join(c if c.isprintable() else " " for c in said).split())


def error_text(error: e.AppError) -> str:
    """One sentence or two: what happened, what was kept, what to do next."""
    for kind in type(error).__mro__:
        if kind in ERRORS:
            return _in_a_line(ERRORS[kind](error.what))
    return "Something could not be done. Nothing was changed."


OTHERS_TURN = "In another window it is somebody else’s turn now. Nothing was kept from here; the page shows theirs."
SOMETHING_WRONG = "Something went wrong. What you had entered before is kept; please try again."
