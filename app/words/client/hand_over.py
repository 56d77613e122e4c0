"""Words for programmes and keys that come by another way than a chosen file, and for what a coach hands out."""
from __future__ import annotations

# ------------------------------------------------------------------ adding

ONE_AT_A_TIME = "Please choose one file at a time. Nothing was added."
THIS_TEXT, THIS_KEY = "This text", "This key"
OTHER_WAYS = "Did your coach send text or a link? Copy all of it and paste it here."
PASTE_OPEN = "Paste text or a link"
PASTE_FIELD = "Text or link from your coach"
PASTE_HINT = "[evenload pack begin] …"
TAKE, LEAVE = "Open it", "Cancel"
LINK_WAITS = "Your coach’s link will open in a moment. First a few questions about you."
FOR_CLIENTS_HEAD = "This link is for the person who trains"
FOR_CLIENTS = "To open it, change to the side of the person who trains, under Settings."


def fetching(name: str) -> str:
    """While a link's file is on its way."""
    return f"Fetching {name}. One moment."


def here_already(coach: str) -> str:
    """The very same file was taken in before."""
    return f"You already have this programme file from {coach}. Nothing was changed."


def _whose(coach: str) -> str:
    return coach or "a coach"


def key_line(coach: str) -> str:
    """What a key is."""
    return (f"This is a key from {_whose(coach)}. It lets this device check that a programme is really theirs. It "
            "doesn’t contain a programme.")


def match_key(coach: str) -> str:
    """How the five words of a key are compared."""
    return ("Compare these five matching words with the ones printed under the code, or ask "
            f"{_whose(coach)} to read them out. If all five are the same, the key is theirs.")


def key_kept(coach: str) -> str:
    """A key was compared and kept."""
    return f"The key is saved. From now on programmes from {_whose(coach)} open without comparing words again."


def key_known(coach: str) -> str:
    """A key that was agreed on before."""
    return f"This device already has this key for {_whose(coach)}. Nothing was changed."


KEYS_TAKEN_OVER = "This device now uses the coach’s new keys; the old ones no longer open anything."


def new_keys_head(coach: str) -> str:
    """Above the five words of a coach whose keys have changed."""
    return f"{coach} has new keys"


def new_keys_why(coach: str) -> str:
    """Why nothing is taken in yet."""
    return (f"This programme isn’t signed with the key that you compared with {coach}. They may have a new computer, "
            "or someone else may have made the file. Nothing has been added yet.")


def match_new_keys(coach: str) -> str:
    """How the five words of new keys are compared."""
    return (f"Phone {coach} or meet, ask whether their keys are new, and ask them to read out their five words. Go on "
            "only if all five are the same as these.")


# ------------------------------------------------------------------ handing out

COPY_PROGRAMME = "Copy as text"
COPIED_PROGRAMME = "Copied. Paste all of it into a message, from the first bracket to the last."
NOT_COPIED = "It couldn’t be copied here. Save the file instead."


def too_large(name: str) -> str:
    """A programme that has no text form."""
    return f"{name} is too large to paste. Save it and send the file, or put it beside your app and send a link to it."


CODE_OPEN, CODE_CLOSE = "Show as a QR code", "Hide the code"
CODE_HEAD = "To scan or print"
CODE_WHAT = "What the code holds"
KEY_CODE, APP_CODE = "My key", "My app"
SAVE_PICTURE, COPY_CODE = "Save as a picture", "Copy what it says"
COPIED_CODE, SAVED_PICTURE = "Copied.", "The picture is saved. It stays sharp at any size."
NO_ADDRESS = (
    "A phone’s camera can open a code only if it is a link. Put your app’s address in the brand file ([[link]] with "
    "app = true) to make it one. Until then, clients paste the scanned text into the app under Programme."
)
KEY_WHY = (
    "A client who scans it sees your five words and compares them with these. After that your programmes open without "
    "a phone call. It isn’t secret."
)
APP_WHY = "Opens your app in a browser. From there it can be added to the home screen."


def pack_why(name: str) -> str:
    """A link that opens a programme."""
    return (f"Opens your app with the programme in it. Put {name} into your app’s folder on the web host first: the "
            "link looks for it there and nowhere else.")


def code_name(what: str) -> str:
    """What a code is to somebody who cannot see it: `QR code: My key`."""
    return f"QR code: {what}"
