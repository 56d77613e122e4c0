"""Words for what went wrong, for screens and commands alike. Knows no Flet."""
from __future__ import annotations

from collections.abc import Callable, Mapping

from app.domain import errors as e
from app.words.text import count

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
    return (f"The records in {path} are damaged. {what}; nothing was deleted. `evenload open --restore` goes back to "
            "the last good copy.")


#: Of a file of another kind than asked for: what it is, and where it goes.
OTHER_KINDS: Mapping[str, str] = {
    "pack": "{name} is a programme file. Open it under Programme; nothing was added here.",
    "return": "{name} is a diary for a coach, who can open it at the desk; nothing was added here.",
    "reply": "{name} is a message from a coach. Open it under Send; nothing was added here.",
}


def _size(found: object) -> str:
    """`0.25 MB`."""
    return f"{int(found) / 1_000_000:.2f} MB" if isinstance(found, int) else str(found)


ERRORS: Mapping[type[e.AppError], Callable[[Mapping[str, object]], str]] = {
    e.UnknownName: lambda w: (f"{_at(w.get('where'))} no {w['kind']} called “{w['name']}”."
                              f"{_known(w.get('known'))}"),
    e.WrongValue: lambda w: f"{w['where']}: {_value(w['value'])} is not allowed here; expected {w['expected']}.",
    e.UnreadableSource: lambda w: f"{w['where']} can’t be read: {w['why']}.",
    e.BadFigure: lambda w: f"{w['where']} can’t be shown: {_findings(w['findings'])}.",
    e.PoorContrast: lambda w: (
        f"{w['where']}, {w['theme']}: {w['words']} ({w['words_colour']}) on {w['ground']} ({w['ground_colour']}) has a "
        f"contrast of {w['ratio']:.1f} to 1, and {w['least']:.1f} is needed. Choose a darker or a paler one."),
    e.TooShort: lambda w: (f"“{w['session']}” needs at least {-(-int(str(w['least_s'])) // 60)} minutes today; "
                           f"{int(str(w['asked_s'])) // 60} is not enough."),
    e.NotOurFile: lambda w: (OTHER_KINDS[str(w["found"])].format(**w) if w.get("found") in OTHER_KINDS else
                             f"{w['name']} isn’t a programme file, diary or message that this app can read. Nothing "
                             "was added."
                             ),
    e.NewerFormat: lambda w: (f"{w['name']} was written by a newer version ({w['found']}); this one reads up to "
                              f"{w['known']}. Update first; nothing was added."),
    e.DamagedFile: lambda w: (f"{w['name']} is damaged ({w['why']}). Nothing was added; ask for it to be sent "
                              f"again."),
    e.UntrustedSigner: lambda w: (f"{w['name']} is signed by a key that is not {w['who']}’s. Nothing was added; "
                                  f"ask them in person."),
    e.WrongRecipient: lambda w: f"{w['name']} was sealed for someone else and can’t be opened here.",
    e.TooLarge: lambda w: (f"{w['name']} is larger than allowed ({w['found']}, limit {w['limit']}). Nothing was "
                           "added."),
    e.TooLargeToPaste: lambda w: (f"{w['name']} is too large to paste ({_size(w['found'])}, at most "
                                  f"{_size(w['limit'])}); choose the file."),
    e.AnotherKey: lambda w: (f"{w['name']} is not the key that this device has for {w['who']}. Nothing "
                             "was added; ask them in person."),
    e.NotFollowed: lambda w: (f"{w['name']} is from {w['who']}, and you aren’t following their programme at the "
                              f"moment. Nothing was added. If {w['who']} is your coach now, choose their programme "
                              "first, then open it again."),
    e.RetiredKey: lambda w: (f"{w['name']} is signed with a key that {w['who'] or 'its coach'} has replaced. Nothing "
                             "was added; ask them in person whether it is theirs."),
    e.OlderKeys: lambda w: (f"{w['name']} has other keys for {w['who']}, but they aren’t newer than the ones you "
                            "have. Nothing was added. Check that the date on this device is right, and ask them in "
                            "person."),
    e.Elsewhere: lambda w: (f"{w['name']} is on another site. Links open only files at this app’s own address, so "
                            "nothing was fetched."),
    e.NothingThere: lambda w: (f"There is no {w['name']} at this app’s address. Nothing was added; ask for the link "
                               "again, or for the file."),
    e.NoNetwork: lambda w: (f"{w['name']} couldn’t be fetched: the internet or the site isn’t available. Nothing was "
                            "changed; try again later, or choose the file."),
    e.NoLinks: lambda w: (f"Links to {w['name']} work only when the app is opened from the web. Here, please choose "
                          "the file or paste its text."),
    e.UnsafeEntry: lambda w: f"{w['name']} contains something that isn’t allowed ({w['entry']}). Nothing was added.",
    e.PassphraseNeeded: lambda w: (f"{w['name']} is sealed with a passphrase, and none was given. Nothing was "
                                     "changed."),
    e.WrongPassphrase: lambda w: (f"{w['name']} doesn’t open with that passphrase, or the file is damaged. Nothing "
                                  "was changed; check capital letters and spaces, and try again."),
    e.EasyPassphrase: lambda w: (f"That passphrase is too easy to guess: use at least {w['least']} characters, such as "
                                 "five or six words that don’t belong together. Nothing was written."),
    e.KeysLocked: lambda w: ("Your keys are locked. Unlock them with your passphrase under “Publish”, then try again. "
                             "Nothing was changed."),
    e.WrongKeyPassphrase: lambda w: ("That passphrase doesn’t unlock your keys. Check capital letters and spaces, and "
                                     "try again."),
    e.SheetFirst: lambda w: ("First put your recovery sheet on paper: it is the only way back if you forget the "
                             "passphrase. Nothing was changed."),
    e.EasyPin: lambda w: (f"A PIN has {w['least']} to {w['most']} digits, not all the same and not counting up or "
                          "down. Nothing was changed."),
    e.WrongPin: lambda w: "That is not the PIN. Try again.",
    e.PinWaits: lambda w: ("That was wrong too often. Wait "
                           f"{count(int(str(w['minutes'])), 'minute')}, then try again."),
    e.NewerDatabase: lambda w: (f"The records in {w['path']} were written by a newer version ({w['found']}). "
                                f"Update first; nothing was changed."),
    e.DamagedDatabase: lambda w: _damaged(str(w["path"]), str(w["kept"])),
    e.EraseUnfinished: lambda w: (f"It is erased, but another app still has {w['path']} open, and traces stay in the "
                                  "journal beside it until that app is closed. Close it, then open this app: it "
                                  "finishes automatically."),
    e.NoCopy: lambda w: f"There is no good copy of {w['path']} to go back to. Nothing was changed.",
    e.NoAccess: lambda w: f"{w['path']} can’t be read or written. Check its permissions, or choose another folder.",
    e.NotOurStore: lambda w: f"{w['path']} is another app’s database. It was not touched.",
    e.NoPrivateFiles: lambda w: ("The app keeps everything on your own device, and this window has nowhere to keep it: "
                                 "it may be a private window, an address without https, or a browser that can’t. Open "
                                 f"it in an ordinary window of an up-to-date {BROWSERS}. Anything you saved in another "
                                 "window is still there."),
    e.PortTaken: lambda w: f"Port {w['port']} is in use; leave out --port, or choose another.",
    e.NoRoom: lambda w: "There is no space left on this device. Nothing was lost; free up some space and try again.",
    e.AlreadyOpen: lambda w: ("The app is already open with these records. "
                              + (f"Carry on there: open {w['page']} in your browser, or close it." if w.get("page")
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
    return "Something couldn’t be done. Nothing was changed."


OTHERS_TURN = "In another window it is someone else’s turn now. Nothing from here was saved; the page now shows theirs."
SOMETHING_WRONG = "Something went wrong. What you had already entered is saved; please try again."
