#!/usr/bin/env python3
"""Makes the card's typeface and the list of fonts that the client loads before its first frame.

    python build/fonts.py SOURCE      (needs fontTools and the installed web client; run only when one of them changes)

SOURCE holds Atkinson Hyperlegible Next in the weights 400, 600 and 800 and its licence, OFL.txt. A text style of the
client cannot ask for tabular figures, so they are made the ordinary ones here: a count then keeps its place while it
runs. What is changed carries the name "Card", as a changed font should; copyright and licence stay in it.
"""
from __future__ import annotations

import importlib.util
import json
import shutil
import sys
from pathlib import Path

from fontTools.ttLib import TTFont

ASSETS = Path(__file__).resolve().parent.parent / "assets"
FAMILY = "Card"
WEIGHTS = {400: "400Regular", 600: "600SemiBold", 800: "800ExtraBold"}
STYLES = {400: "Regular", 600: "SemiBold", 800: "ExtraBold"}
#: The client lists these for typeset formulas, fetches every one of them at each start, and we set no formulas.
UNUSED = "packages/flutter_math_fork/"


def freeze_tabular(font: TTFont) -> None:
    """Makes the tabular figures the ordinary ones."""
    table = font["GSUB"].table
    swap: dict[str, str] = {}
    for record in table.FeatureList.FeatureRecord:
        if record.FeatureTag == "tnum":
            for index in record.Feature.LookupListIndex:
                for part in table.LookupList.Lookup[index].SubTable:
                    swap.update(getattr(part, "ExtSubTable", part).mapping)
    for cmap in font["cmap"].tables:
        cmap.cmap.update({code: swap[glyph] for code, glyph in cmap.cmap.items() if glyph in swap})


def rename(font: TTFont, weight: int) -> None:
    """Gives it its own name; the copyright, licence and their addresses (ids 0, 13, 14) stay."""
    style = STYLES[weight]
    names = {1: f"{FAMILY} {style}", 2: "Regular", 3: f"{FAMILY}-{style};tabular", 4: f"{FAMILY} {style}",
             6: f"{FAMILY}-{style}", 16: FAMILY, 17: style}
    table = font["name"]
    for place in {(record.platformID, record.platEncID, record.langID) for record in table.names}:
        for number, text in names.items():
            table.setName(text, number, *place)


def widths(font: TTFont) -> set[int]:
    """The widths of the ten figures; one, when they are tabular."""
    return {font["hmtx"][font.getBestCmap()[ord(figure)]][0] for figure in "0123456789"}


def client_manifest() -> list[dict[str, object]]:
    """The client's own list, without what we never use."""
    spec = importlib.util.find_spec("flet_web")
    if spec is None or spec.origin is None:
        raise SystemExit("the web client (flet-web) is not installed here")
    listed = json.loads((Path(spec.origin).parent / "web/assets/FontManifest.json").read_text("utf-8"))
    return [family for family in listed if not family["family"].startswith(UNUSED)]


def main(source: Path) -> None:
    """Writes assets/fonts and assets/assets/FontManifest.json."""
    fonts = ASSETS / "fonts"
    fonts.mkdir(parents=True, exist_ok=True)
    for weight, name in WEIGHTS.items():
        font = TTFont(source / f"AtkinsonHyperlegibleNext_{name}.ttf", recalcTimestamp=False)
        freeze_tabular(font)
        rename(font, weight)
        font.save(fonts / f"{FAMILY}-{weight}.ttf")
        print(weight, "figures as wide as", widths(font))
    shutil.copyfile(source / "OFL.txt", fonts / "OFL.txt")
    faces = [{"asset": f"../fonts/{FAMILY}-{weight}.ttf", "weight": weight} for weight in WEIGHTS]
    manifest = [*client_manifest(), {"family": FAMILY, "fonts": faces}]
    place = ASSETS / "assets" / "FontManifest.json"
    place.parent.mkdir(exist_ok=True)
    place.write_text(json.dumps(manifest, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
