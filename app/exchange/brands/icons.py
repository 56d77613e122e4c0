"""A brand's icons in every size that a browser asks for, and the web manifest that names them.

Needs the platform-assets library, which a coach's machine has and a client's never needs.
"""
from __future__ import annotations

import io
import json
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from app.domain.branding.brand import Brand
from app.domain.errors import WrongValue
from app.exchange.brands.brand_file import BrandFiles

MANIFEST = "manifest.json"
#: Name, side in px, whether it lies on the paper without transparency, and the margin rule of the library.
SIZES: Mapping[str, tuple[int, bool, str | None]] = {
    "favicon.png": (48, False, None),
    "icons/icon-192.png": (192, False, None),
    "icons/icon-512.png": (512, False, None),
    "icons/icon-maskable-192.png": (192, True, "maskable"),
    "icons/icon-maskable-512.png": (512, True, "maskable"),
    "icons/apple-touch-icon-192.png": (192, True, "apple-touch"),
    "icons/loading-animation.png": (200, False, None),
}


def site_files(whole: BrandFiles) -> dict[str, bytes]:
    """What a brand puts over the files at the root of a site: its manifest and, where it has an icon, every icon.

    Raises:
        WrongValue: the icon is damaged.
    """
    icon = whole.files[whole.brand.icon] if whole.brand.icon else b""
    return {MANIFEST: web_manifest(whole.brand)} | (web_icons(whole.brand, icon) if icon else {})


def web_icons(brand: Brand, picture: bytes) -> dict[str, bytes]:
    """Every icon of a page, as PNG by its path from the site's root, drawn from one square PNG.

    Raises:
        WrongValue: the picture is damaged.
    """
    from flet_platform_assets import (
        AssetSpec,
        IconOptions,
        SourceError,
        Target,
        load_source,
        parse_hex_color,
        render_icons,
    )
    from PIL import Image

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "icon.png"
        path.write_bytes(picture)
        try:
            source, pre_rendered = load_source(path)
        except (SourceError, OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
            raise WrongValue(where=brand.icon, value=None, expected="a picture that is whole") from error
    targets = [Target(name, side, opaque, frame) for name, (side, opaque, frame) in SIZES.items()]
    options = IconOptions(background=parse_hex_color(brand.light.paper))
    result = render_icons(source, options, AssetSpec(targets), platform="web", pre_rendered=pre_rendered, derived=True)
    return {asset.relative_path: _png(asset.image) for asset in result.assets}


def web_manifest(brand: Brand) -> bytes:
    """The web manifest. It bears no `id`: a relative one would be the same for two brands on one host."""
    icons = [{"src": name, "sizes": f"{side}x{side}", "type": "image/png", **_purpose(name)}
             for name, (side, _, _) in SIZES.items() if name.startswith("icons/icon-")]
    return json.dumps({
        "name": brand.name, "short_name": brand.short_name, "description": brand.description, "start_url": "./",
        "scope": "./", "display": "standalone", "orientation": "any", "background_color": brand.light.paper,
        "theme_color": brand.light.paper, "prefer_related_applications": False, "icons": icons,
    }, ensure_ascii=False, indent=1).encode()


def _purpose(name: str) -> dict[str, str]:
    return {"purpose": "maskable"} if "maskable" in name else {}


def _png(image: Any) -> bytes:
    out = io.BytesIO()
    image.save(out, format="PNG", optimize=True)
    return out.getvalue()
