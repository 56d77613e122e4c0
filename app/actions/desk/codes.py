"""What a coach gives away as a QR code: the key, and where an address is known, links to the app and to programmes."""
from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.actions.desk import brand_apps, publishing
from app.device.linked_files import route_of
from app.domain.branding.brand import Brand, CoachKey
from app.exchange.crypto.key_text import key_line, key_link
from app.storage.database import Store


class Holds(StrEnum):
    """What a code is for."""

    KEY = "key"
    APP = "app"
    PACK = "pack"


@dataclass(frozen=True)
class Code:
    """`text` is what the code holds; `file` the name of the programme that it opens, for `Holds.PACK`."""

    holds: Holds
    text: str
    file: str = ""


def app_address(store: Store, brand: Brand) -> str:
    """Where the coach's app lies on the web, by the brand in use or by the first one taken in; empty if none says."""
    brands = (brand, *(one.brand for one in brand_apps.own_brands(store) if one.brand))
    return next((link.address for one in brands for link in one.links if link.app), "")


def codes(store: Store, brand: Brand) -> tuple[Code, ...]:
    """The key first; nothing before the keys were made."""
    keys = publishing.coach_keys(store)
    if keys is None:
        return ()
    address = app_address(store, brand)
    card = CoachKey(publishing.coach_name(store), keys.signing.public.hex())
    if not address:
        return (Code(Holds.KEY, key_line(card)),)
    packs = [Code(Holds.PACK, f"{address}#{route_of(name)}", name) for name in publishing.published_files(store)]
    return (Code(Holds.KEY, key_link(card, address)), Code(Holds.APP, address), *packs)
