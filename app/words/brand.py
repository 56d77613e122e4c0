"""Words about the app itself: whose it is, whom to ask, and the coach's own app as a folder. Knows no Flet."""
from __future__ import annotations

from datetime import datetime

from app.domain.branding.brand import BrandContact

ABOUT = "About this app"
ASK = "Whom to ask"


def contact_lines(contact: BrandContact) -> tuple[str, ...]:
    """Name, mail and telephone, as far as they were entered."""
    return tuple(filter(None, (contact.name, contact.mail, contact.phone)))


# ------------------------------------------------------------------ the coach's own app

APP_HEAD = "Your own app"
APP_WHY = (
    "Your name, colours and programmes as an app that your clients put on their home screen. Choose your brand file "
    "together with its icon, picture and programme files; and once, the shell that whoever set this up gave you."
)
TAKE_FILES = "Choose files"
MAKE_APP = "Make my app"
NO_SHELL = "The shell is not here yet: choose it with “Choose files”."
SHELL_HERE = "The shell is here."
MAKING = "Making the app. This takes some seconds."


#: A browser keeps pages apart by their origin (scheme, host, port), and not by the folder below it.
OWN_HOST = (
    "Give it a host name of its own, such as studio.example.org: whatever else lies at the same address, another app "
    "or a page that somebody else put there, can read the records that it keeps in a browser."
)


def brand_here(name: str) -> str:
    """After a brand was taken in."""
    return f"{name} is here."


def app_made(name: str, folder: str, size: int) -> str:
    """After an app was made, with what to do next."""
    return (f"{name} is made: {size / 1e6:.0f} MB in {folder}, and the same as one ZIP file beside it. Put the folder "
            f"on any web host that answers by https, then open its address on a phone. {OWN_HOST}")


def made(name: str, folder: str, files: int, size: int) -> str:
    """After `evenload make-app`, with what to do next."""
    return (f"{name} is in {folder}: {files} files, {size / 1e6:.0f} MB. See it here with: evenload serve {folder}\n"
            f"To hand it out, put the whole folder on any web host that answers by https. {OWN_HOST}")


def shown_at(address: str) -> str:
    """While a folder is served on this machine."""
    return f"Open {address}\nOnly this computer can see it. Ctrl+C ends it."


def works_offline(tried: datetime) -> str:
    """After a start without a network succeeded on this device; before that nothing of the kind is said."""
    return f"Works without internet: it started without a network on {tried:%d %B %Y}."
