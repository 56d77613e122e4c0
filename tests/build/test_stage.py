"""A stage is a whole project of its own: outside the checkout's source, of one brand, and alive as byte code."""
from __future__ import annotations

import compileall
import importlib
import os
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

from app.domain.errors import AppError, UnreadableSource, WrongValue
from app.exchange.brands.brand_file import read_brand_files
from app.storage.schema import LINEAGE

ROOT = Path(__file__).resolve().parents[2]
BRANDS = ROOT / "build" / "brands"
BRAND = BRANDS / "saltmarsh.toml"


@pytest.fixture(scope="module")
def maker() -> ModuleType:
    return importlib.import_module("stage")


@pytest.fixture(scope="module")
def project(maker: ModuleType, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The stage of a demo brand."""
    made: Path = maker.stage(BRAND, tmp_path_factory.mktemp("stages") / "saltmarsh")
    return made


@pytest.fixture(scope="module")
def settings(project: Path) -> dict[str, dict[str, object]]:
    """What its pyproject says to the build tool."""
    found: dict[str, dict[str, object]] = tomllib.loads((project / "pyproject.toml").read_text("utf-8"))["tool"]["flet"]
    return found


def test_the_entry_has_two_lines_and_stands_at_the_top(project: Path) -> None:
    """The build tool looks for it there and nowhere else."""
    assert (project / "main.py").read_text("utf-8").splitlines() == ["from app.native import run", "run()"]
    assert {path.name for path in project.iterdir()} == {
        "main.py", "app", "migrations", "assets", "brand", "pyproject.toml"}


def test_caches_and_what_only_a_coach_runs_stay_at_home(project: Path) -> None:
    """The app gets smaller by them."""
    names = {path.name for path in project.rglob("*")}
    assert not names & {"__pycache__", "commands", "demo", "PACK.md"}
    assert (project / "app" / "native.py").is_file()
    assert any((project / "migrations" / "versions").glob("*.py"))


def test_the_icon_is_the_brand_s_and_the_packs_come_along(project: Path) -> None:
    """Every size is drawn from that one picture."""
    whole = read_brand_files(BRAND)
    assert (project / "assets" / "icon.png").read_bytes() == whole.files[whole.brand.icon]
    assert read_brand_files(project / "brand" / "brand.toml") == whole


def test_phones_get_no_server_and_browsers_no_cryptography(
    project: Path, settings: dict[str, dict[str, object]]
) -> None:
    """Each dependency is where it can be installed."""
    everywhere = tomllib.loads((project / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    told = " ".join(everywhere)
    assert not any(name in told for name in ("flet-web", "uvicorn", "platformdirs", "flet-platform", "plyer", "crypto"))
    assert "flet-audio" in told
    for platform in ("android", "ios", "macos", "windows", "linux"):
        assert "cryptography" in str(settings[platform]["dependencies"])
        assert ("plyer" in str(settings[platform]["dependencies"])) == (platform in {"macos", "windows", "linux"})


def test_nothing_that_the_program_imports_is_left_out(settings: dict[str, dict[str, object]], project: Path) -> None:
    """Every dependency of the checkout is in the stage, unless it is named as staying at home."""
    derive = importlib.import_module("stage_project")
    ours = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    told = (project / "pyproject.toml").read_text("utf-8")
    for line in ours:
        name = derive._name(line)
        assert name in derive.AT_HOME or f'"{line}"' in told, name


def test_permissions_links_and_colours_are_said_per_platform(settings: dict[str, dict[str, object]]) -> None:
    """A common table of links is not read for phones."""
    link = {"scheme": "saltmarsh", "host": "programme"}
    assert settings["android"]["deep_linking"] == settings["ios"]["deep_linking"] == link
    assert "deep_linking" not in settings
    allowed = settings["android"]["permission"]
    assert isinstance(allowed, dict)
    assert {"android.permission.VIBRATE", "android.permission.WAKE_LOCK", "android.permission.POST_NOTIFICATIONS",
            "android.permission.FOREGROUND_SERVICE_MEDIA_PLAYBACK"} <= set(allowed)
    assert settings["ios"]["info"] == {"UIBackgroundModes": ["audio"]}
    assert settings["splash"]["color"] == "#E9F1F3"
    assert settings["splash"]["dark_color"] == "#0C151A"
    assert settings["bundle_id"] == "example.saltmarsh.steady"


def test_as_byte_code_alone_it_makes_the_whole_store(project: Path, tmp_path: Path) -> None:
    """The build tool compiles and removes the source; migrations found by nobody would make an empty store."""
    bare = tmp_path / "bare"
    shutil.copytree(project, bare)
    compileall.compile_dir(bare, quiet=1, legacy=True, workers=1)
    for source in bare.rglob("*.py"):
        source.unlink()
    seen = subprocess.run([sys.executable, "-c", ALIVE], cwd=bare, capture_output=True, text=True, check=False,
                          env=os.environ | {"FLET_APP_STORAGE_DATA": str(tmp_path / "data")})
    assert seen.returncode == 0, seen.stderr
    place, revision, tables, name, coaches = seen.stdout.split("|")
    assert Path(place) == bare / "app" / "__init__.pyc"
    assert (revision, name, coaches.strip()) == (LINEAGE.head, "Saltmarsh Steady", "Ines Vandel")
    assert int(tables) > 5


ALIVE = """
import sys
sys.path.insert(0, "")
import app
from app import native
from app.actions.files.programmes import followables
from app.exchange.brands.brand_file import read_brand
from app.resources import brand_file
from app.storage import schema
from sqlalchemy import inspect
brand = read_brand(brand_file())
store = native._open(brand, brand_file())
with store.read() as db:
    told = schema.version(db, "x"), len(inspect(db).get_table_names())
print(app.__file__, *told, brand.name, *[one.coach for one in followables(store)], sep="|")
"""


@pytest.mark.parametrize("place", [ROOT, ROOT.parent, ROOT / "build" / "x", ROOT / "app", ROOT / "tests" / "x"])
def test_it_never_lies_in_the_checkout_s_source(place: Path, maker: ModuleType) -> None:
    """Nothing is touched there."""
    before = sorted(path.name for path in ROOT.iterdir())
    with pytest.raises(WrongValue):
        maker.stage(BRAND, place)
    assert sorted(path.name for path in ROOT.iterdir()) == before


def test_a_folder_with_something_else_in_it_is_left_alone(maker: ModuleType, tmp_path: Path) -> None:
    """Somebody may have mistyped."""
    (tmp_path / "letters.txt").write_text("dear", "utf-8")
    with pytest.raises(WrongValue):
        maker.stage(BRAND, tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["letters.txt"]


def test_staging_again_keeps_the_build_tool_s_caches_alone(maker: ModuleType, tmp_path: Path) -> None:
    """Another brand's files do not stay."""
    place = tmp_path / "stage"
    maker.stage(BRAND, place)
    (place / "build").mkdir()
    (place / "build" / "kept").write_text("", "utf-8")
    maker.stage(BRANDS / "linden-court.toml", place)
    assert (place / "build" / "kept").is_file()
    assert not (place / "brand" / "saltmarsh-icon.png").exists()


def no_icon(folder: Path) -> None:
    (folder / "saltmarsh-icon.png").unlink()


def cut_pack(folder: Path) -> None:
    pack = folder / "saltmarsh.evenload-pack"
    pack.write_bytes(pack.read_bytes()[:-100])


def strange_pack(folder: Path) -> None:
    shutil.copy(BRANDS / "linden-court.evenload-pack", folder / "saltmarsh.evenload-pack")


@pytest.mark.parametrize("spoil", [no_icon, cut_pack, strange_pack])
def test_a_brand_that_the_app_would_refuse_is_not_staged(
    spoil: Callable[[Path], None], maker: ModuleType, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One sentence, status 2, and nothing half-written."""
    folder = tmp_path / "brand"
    shutil.copytree(BRANDS, folder)
    spoil(folder)
    with pytest.raises(AppError):
        maker.stage(folder / "saltmarsh.toml", tmp_path / "stage")
    assert maker.main(["--brand", str(folder / "saltmarsh.toml"), "-o", str(tmp_path / "stage")]) == 2
    assert len(capsys.readouterr().err.strip().splitlines()) == 1
    assert not (tmp_path / "stage").exists()


def test_a_brand_file_that_is_missing_is_said(maker: ModuleType) -> None:
    """Not a traceback."""
    with pytest.raises(UnreadableSource):
        maker.stage(BRANDS / "absent.toml", None)
