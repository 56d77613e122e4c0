"""Words for programmes and keys that come by another way than a chosen file, and for what a coach hands out."""
from __future__ import annotations

# ------------------------------------------------------------------ taking in

ONE_AT_A_TIME = "Choose one file at a time. Nothing was taken in."
THIS_TEXT, THIS_KEY = "This text", "This key"
OTHER_WAYS = "Or as text or by a link: copy what your coach sent, all of it, and paste it here."
PASTE_OPEN = "Paste a text or link"
PASTE_FIELD = "Text or link from your coach"
PASTE_HINT = "[evenload pack begin] …"
TAKE, LEAVE = "Open it", "Cancel"
LINK_WAITS = "You came by a link from a coach. First a few questions about you; then it is opened."
FOR_CLIENTS_HEAD = "This link is for who trains"
FOR_CLIENTS = "It opens once somebody who trains is on this device: Settings, then change to their side."


def fetching(name: str) -> str:
    """While a link's file is on its way."""
    return f"{name} is being fetched. One moment."


def here_already(coach: str) -> str:
    """The very same file was taken in before."""
    return f"This programme of {coach}’s was here already. Nothing was changed."


def _whose(coach: str) -> str:
    return coach or "a coach"


def key_line(coach: str) -> str:
    """What a key is."""
    return (f"A key of {_whose(coach)}: by it this device knows whether a programme is really theirs. It brings no "
            "programme.")


def match_key(coach: str) -> str:
    """How the five words of a key are compared."""
    return ("Compare these five matching words with those printed under the code, or have "
            f"{_whose(coach)} read them out. If all five are the same, the key is theirs.")


def key_kept(coach: str) -> str:
    """A key was compared and kept."""
    return f"The key is kept. A programme of {_whose(coach)}’s opens from now on without comparing words again."


def key_known(coach: str) -> str:
    """A key that was agreed on before."""
    return f"This is the key that this device knows for {_whose(coach)} already. Nothing was changed."


KEYS_TAKEN_OVER = "From now on this device knows this coach by the new keys; the old ones open nothing any more."


def new_keys_head(coach: str) -> str:
    """Above the five words of a coach whose keys have changed."""
    return f"{coach} has new keys"


def new_keys_why(coach: str) -> str:
    """Why nothing is taken in yet."""
    return (f"This programme is not signed with the key that you compared with {coach}. That is so after a computer "
            "was lost, and it is what a stranger would try. Nothing of it is taken in yet.")


def match_new_keys(coach: str) -> str:
    """How the five words of new keys are compared."""
    return (f"Ring {coach}, or ask when you next meet, and have these five matching words read out. Ask too whether "
            "the keys are new. Only if all five are the same, go on.")


# ------------------------------------------------------------------ handing out

COPY_PROGRAMME = "Copy as text"
COPIED_PROGRAMME = "Copied. Paste it into a message, all of it, from the first bracket to the last."
NOT_COPIED = "It could not be copied here. Save the file instead."


def too_large(name: str) -> str:
    """A programme that has no text form."""
    return f"{name} is too large to paste. Save it and send the file; or put it beside your app and send a link to it."


CODE_OPEN, CODE_CLOSE = "Show as a QR code", "Hide the code"
CODE_HEAD = "To scan or print"
CODE_WHAT = "What the code holds"
KEY_CODE, APP_CODE = "My key", "My app"
SAVE_PICTURE, COPY_CODE = "Save as a picture", "Copy what it says"
COPIED_CODE, SAVED_PICTURE = "Copied.", "The picture is saved. It is as sharp as the printer, at any size."
NO_ADDRESS = (
    "A camera opens a code by itself only if it is a link. Give your app’s address in the brand file ([[link]] with "
    "app = true), and the code becomes one; until then a scanned text is pasted in the app under Programme."
)
KEY_WHY = (
    "Whoever scans it is shown your five words and compares them with these. Then your programmes open without a "
    "telephone call. It is no secret."
)
APP_WHY = "Opens your app in a browser. From there it goes onto the home screen."


def pack_why(name: str) -> str:
    """A link that opens a programme."""
    return (f"Opens your app with the programme in it. Put {name} into the folder of your app on the web host first: "
            "the link finds it there and nowhere else.")


def code_name(what: str) -> str:
    """What a code is to somebody who cannot see it: `QR code: My key`."""
    return f"QR code: {what}"
