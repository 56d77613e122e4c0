"""Looks after the moving figures of a source.

    .venv/bin/python build/figures.py check [IDS…]        # prints every check that does not hold
    .venv/bin/python build/figures.py sheet DIR [IDS…]    # contact sheets as PNG, to be looked at
    .venv/bin/python build/figures.py build               # writes figures/built.zip anew, building what has changed

`--source FOLDER` names another source than the shipped one. `sheet` needs a Chromium.
"""
from __future__ import annotations

import argparse
import html
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))
sys.path.insert(0, str(ROOT / "build"))

from app.domain.branding.brand import EVENLOAD_DARK, EVENLOAD_LIGHT  # noqa: E402
from app.domain.errors import AppError  # noqa: E402
from app.domain.figure.checking.figure_checks import failed  # noqa: E402
from app.domain.figure.drawing.still import Stills, moments  # noqa: E402
from app.domain.figure.rig.figure_data import Figure  # noqa: E402
from app.domain.figure.rig.figure_form import figure_tables, merged, read_figure  # noqa: E402
from app.domain.figure.rig.motion import FigureMotion  # noqa: E402
from app.exchange.packs.figure_files import BUILT, built_archive, read_figure_source  # noqa: E402
from app.ui.parts.figure_ink import figure_ink  # noqa: E402
from app.words import errors, moving_figures  # noqa: E402

SHIPPED = ROOT / "assets" / "programmes" / "brackwater"
TILE, COLUMNS, PER_SHEET, FRAMES = 190, 2, 24, 4
HEAD = 40


def main(argv: Sequence[str] | None = None) -> int:
    """Runs one command; 1 where a check does not hold."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--source", type=Path, default=SHIPPED)
    commands = parser.add_subparsers(dest="command", required=True)
    commands.add_parser("check").add_argument("ids", nargs="*")
    commands.add_parser("build")
    sheet = commands.add_parser("sheet")
    sheet.add_argument("folder", type=Path)
    sheet.add_argument("ids", nargs="*")
    args = parser.parse_args(argv)
    if args.command == "build":
        return build(args.source)
    figures, bad = readable(args.source, args.ids)
    if args.command == "sheet":
        return sheets(figures, args.folder)
    return check(figures) or bad


def readable(source: Path, ids: Sequence[str]) -> tuple[list[Figure], int]:
    """The figures that can be read, and 1 if there was one that cannot; what is wrong is printed."""
    tables, places, bad = {}, {}, 0
    for path in sorted((source / "figures").glob("*.json")):
        try:
            more, where = figure_tables({path.name: path.read_bytes()})
        except AppError as error:
            bad = complain(path.name, error)
            continue
        twice = more.keys() & tables.keys()
        if twice:
            print(f"{path.name}: {', '.join(sorted(twice))} stand elsewhere too")
            bad = 1
        tables.update(more)
        places.update(where)
    found = []
    for known in ids or tables:
        try:
            found.append(read_figure(merged(tables, known, places), places[known]))
        except (AppError, KeyError) as error:
            bad = complain(known, error)
    return found, bad


def complain(name: str, error: Exception) -> int:
    """Prints what is wrong with a figure that cannot be read."""
    what = {k: v for k, v in error.what.items() if k != "known"} if isinstance(error, AppError) else error
    print(f"{name}: {type(error).__name__} {what}")
    return 1


def check(figures: Sequence[Figure]) -> int:
    """Prints the checks that do not hold."""
    bad = 0
    for figure in figures:
        try:
            findings = failed(FigureMotion(figure))
        except AppError as error:
            bad += complain(figure.id, error)
            continue
        for finding in findings:
            print(f"{figure.id}: {moving_figures.finding_line(finding)}")
        bad += bool(findings)
    print(f"{len(figures)} figures, {bad} with something wrong")
    return int(bad > 0)


def build(source: Path) -> int:
    """Writes what a pack takes from, so that packs are made in a moment."""
    try:
        data = built_archive(read_figure_source(source))
    except AppError as error:
        print(errors.error_text(error))
        return 1
    path = source / "figures" / BUILT
    path.write_bytes(data)
    print(f"{path}: {len(data) / 1_000_000:.2f} MB")
    return 0


def sheets(figures: Sequence[Figure], folder: Path) -> int:
    """Writes the contact sheets, so many figures to each."""
    from chromium import installed

    browser = installed(Path(sys.executable))
    if browser is None:
        print("A Chromium is needed: build/dev.py test brings one.")
        return 1
    folder.mkdir(parents=True, exist_ok=True)
    for number, start in enumerate(range(0, len(figures), PER_SHEET), 1):
        page = folder / f"figures-{number:02}.html"
        some = figures[start : start + PER_SHEET]
        page.write_text(sheet_page(some), encoding="utf-8")
        columns = min(COLUMNS, len(some))
        size = f"{columns * ((FRAMES + 1) * TILE + 12) + 8},{-(-len(some) // columns) * (TILE + HEAD + 8) + 8}"
        picture = page.with_suffix(".png")
        subprocess.run([str(browser), "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
                        f"--window-size={size}", f"--screenshot={picture}", page.as_uri()], check=True,
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        page.unlink()
        print(picture)
    return 0


def sheet_page(figures: Sequence[Figure]) -> str:
    """A page with a row of moments for each figure, the last one on the dark card."""
    cards = "".join(card(figure) for figure in figures)
    return (f"<meta charset=utf-8><style>body{{margin:4px;background:#777;font:13px sans-serif;display:flex;"
            f"flex-wrap:wrap;gap:8px}}.c{{background:#2a2a2a;color:#fff;width:{(FRAMES + 1) * TILE}px;"
            f"height:{TILE + HEAD}px}}.h{{height:{HEAD}px;padding:2px 8px;box-sizing:border-box;overflow:hidden}}"
            f"svg{{width:{TILE}px;height:{TILE}px;display:block;float:left}}</style>{cards}")


def card(figure: Figure) -> str:
    """One figure with its name."""
    title = f"<b>{html.escape(figure.id)}</b> · {html.escape(figure.title)}"
    about = f"{figure.view.value}, {figure.repeat.value}, {figure.period_s:.1f} s. {html.escape(figure.hidden)}"
    try:
        pictures = "".join(tiles(figure))
    except AppError as error:
        pictures = html.escape(f"{type(error).__name__} {error.what}")
    return f"<div class=c><div class=h>{title}<br><small>{about}</small></div>{pictures}</div>"


def tiles(figure: Figure) -> Iterator[str]:
    """Moments on the light card and the turn on the dark one."""
    stills = Stills(FigureMotion(figure))
    turn = moments(figure)[1]
    for at in spread(figure):
        yield figure_ink(EVENLOAD_LIGHT).on_svg(stills.svg(at)).replace("<svg", '<svg style="background:#F4EDDD"')
    yield figure_ink(EVENLOAD_DARK).on_svg(stills.svg(turn)).replace("<svg", '<svg style="background:#18140F"')


def spread(figure: Figure) -> list[float]:
    """The beginning, then moments spread over the changes of pose: half way into each and at its end."""
    changes = [(a.at_s, b.at_s) for a, b in zip(figure.keys, figure.keys[1:], strict=False) if a.name != b.name]
    times = [0.0, *(t for a, b in changes for t in ((a + b) / 2, b - 1e-6))][: -1 if len(changes) > 1 else None]
    if len(times) <= FRAMES:
        return [*times, *[times[-1]] * (FRAMES - len(times))]
    return [times[round(i * (len(times) - 1) / (FRAMES - 1))] for i in range(FRAMES)]


if __name__ == "__main__":
    sys.exit(main())
