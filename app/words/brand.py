"""Words about the app itself: whose it is, whom to ask, and the coach's own app as a folder. Knows no Flet."""
from __future__ import annotations

from datetime import datetime

from app.domain.branding.brand import BrandContact

ABOUT = "About this app"
ASK = "Who to ask"


def contact_lines(contact: BrandContact) -> tuple[str, ...]:
    """Name, mail and telephone, as far as they were entered."""
    return tuple(filter(None, (contact.name, contact.mail, contact.phone)))


# ------------------------------------------------------------------ the coach's own app

APP_HEAD = "Your own app"
APP_WHY = (
    "Your name, colours and programmes as an app that your clients put on their home screen. Choose your brand file "
    "together with its icon, picture and programme files; and, the first time, the app shell (a ZIP file) from the "
    "person who set this up."
)
TAKE_FILES = "Choose files"
MAKE_APP = "Make my app"
NO_SHELL = "The app shell isn’t here yet: add it with “Choose files”."
SHELL_HERE = "The app shell is here."
MAKING = "Making the app. This takes a few seconds."


#: A browser keeps pages apart by their origin (scheme, host, port), and not by the folder below it.
OWN_HOST = (
    "Give it its own host name, such as studio.example.org: anything else at the same address, such as another app or "
    "someone else’s page, could read the records it keeps in a browser."
)


def brand_here(name: str) -> str:
    """After a brand was taken in."""
    return f"{name} is ready to use."


def app_made(name: str, folder: str, size: int) -> str:
    """After an app was made, with what to do next."""
    return (f"{name} is ready: {size / 1e6:.0f} MB in {folder}, with the same as one ZIP file beside it. Put the "
            f"folder on any web host that uses https, then open its address on a phone. {OWN_HOST}")


def made(name: str, folder: str, files: int, size: int) -> str:
    """After `evenload make-app`, with what to do next."""
    return (f"{name} is in {folder}: {files} files, {size / 1e6:.0f} MB. See it here with: evenload serve {folder}\n"
            f"To hand it out, put the whole folder on any web host that uses https. {OWN_HOST}")


def shown_at(address: str) -> str:
    """While a folder is served on this machine."""
    return f"Open {address}\nOnly this computer can see it. Press Ctrl+C to stop."


def works_offline(tried: datetime) -> str:
    """After a start without a network succeeded on this device; before that nothing of the kind is said."""
    return f"Works without the internet: it opened offline on {tried:%d %B %Y}."
