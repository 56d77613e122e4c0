"""Versions of the tables: one constant, one chain of migrations, and upgrades that lose nothing."""
from __future__ import annotations

import compileall
import os
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, text

from app.resources import resource_dir
from app.storage import schema
from app.storage.copies import copies
from app.storage.database import Store, open_store
from app.storage.export import logical_dump
from app.storage.schema import LINEAGE, Lineage, alembic_config
from app.storage.tables import metadata

ROOT = Path(__file__).parents[2]

NEXT = '''
import sqlalchemy as sa
from alembic import op

revision = "9999"
down_revision = "{before}"


def upgrade():
    with op.batch_alter_table("person") as table:
        table.add_column(sa.Column("shoe_size", sa.Integer))
        table.alter_column("name", existing_type=sa.Text, nullable=True)
    {more}
'''


def _lineage(tmp_path: Path, more: str = "pass") -> Lineage:
    """This program's migrations and one more, which makes the table anew that most others refer to."""
    folder = tmp_path / "migrations"
    shutil.copytree(resource_dir("migrations"), folder, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "versions" / "9999_next.py").write_text(NEXT.format(before=LINEAGE.head, more=more))
    return Lineage((*LINEAGE.revisions, "9999"), folder)


def test_the_constant_names_the_migrations_there_are() -> None:
    """In their order, with one head and one base."""
    folder = ScriptDirectory.from_config(alembic_config(resource_dir("migrations")))
    chain = [revision.revision for revision in folder.walk_revisions()]
    assert tuple(reversed(chain)) == LINEAGE.revisions
    assert folder.get_heads() == [LINEAGE.head]


def test_the_tables_in_code_are_those_that_the_migrations_build(store: Store) -> None:
    """Columns, types, keys and indexes."""
    with store.read() as db:
        assert compare_metadata(MigrationContext.configure(db), metadata) == []
        assert set(inspect(db).get_table_names()) == set(metadata.tables) | {"alembic_version"}


def test_an_upgrade_that_makes_a_table_anew_keeps_every_row(told: Store, tmp_path: Path) -> None:
    """Also those that refer to it; the file as it was lies beside it, named with its version."""
    assert told.path is not None
    with told.read() as db:
        before = logical_dump(db)
    told.close()
    after = open_store(told.path, _lineage(tmp_path))
    with after.read() as db:
        assert logical_dump(db) == before
        assert db.execute(text("select version_num from alembic_version")).scalar() == "9999"
        assert db.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    copy, = copies(told.path)
    assert copy.name == f"evenload.db.copy-{LINEAGE.head}-1"
    with open_store(copy).read() as db:
        assert logical_dump(db) == before


def test_an_upgrade_that_fails_changes_nothing(told: Store, tmp_path: Path) -> None:
    """Neither tables nor rows nor the version."""
    assert told.path is not None
    with told.read() as db:
        before = logical_dump(db)
    told.close()
    broken = _lineage(tmp_path, "op.execute('delete from setting'); op.execute('no such statement')")
    with pytest.raises(Exception, match="no such statement"):
        open_store(told.path, broken)
    with open_store(told.path).read() as db:
        assert logical_dump(db) == before
        assert db.execute(text("select version_num from alembic_version")).scalar() == LINEAGE.head
        assert "shoe_size" not in {c["name"] for c in inspect(db).get_columns("person")}


def test_an_upgrade_that_orphans_rows_is_undone(told: Store, tmp_path: Path) -> None:
    """Foreign keys are off meanwhile, so they are checked at the end."""
    assert told.path is not None
    told.close()
    with pytest.raises(RuntimeError, match="refer"):
        open_store(told.path, _lineage(tmp_path, "op.execute('delete from person')"))
    with open_store(told.path).read() as db:
        assert "p-ines" in logical_dump(db)


def test_missing_migrations_are_noticed(tmp_path: Path) -> None:
    """Alembic alone would be content with an empty folder."""
    lineage = _lineage(tmp_path)
    assert lineage.migrations is not None
    shutil.rmtree(lineage.migrations / "versions")
    (lineage.migrations / "versions").mkdir()
    with pytest.raises(RuntimeError, match="migrations are missing"):
        open_store(tmp_path / "data", lineage)
    longer = replace(LINEAGE, revisions=(*LINEAGE.revisions, "9999"))
    with pytest.raises(RuntimeError, match="9999"):
        open_store(tmp_path / "other", longer)


def test_a_stale_cache_of_a_migration_does_not_count(tmp_path: Path) -> None:
    """As after renaming a file: beside source, compiled files are not looked at."""
    folder = _lineage(tmp_path).migrations
    assert folder is not None
    extra = folder / "versions" / "9999_next.py"
    compileall.compile_file(extra, quiet=1)
    extra.unlink()
    assert list((folder / "versions" / "__pycache__").glob("9999_next*"))
    with open_store(tmp_path / "data", replace(LINEAGE, migrations=folder)).read() as db:
        assert schema.version(db, "") == LINEAGE.head


LOOK = """
import sys
from app.storage.database import open_store
store = open_store(sys.argv[1])
assert "alembic" in sys.modules, "the first start makes the tables"
store.close()
"""
AGAIN = """
import sys
from app.storage.database import open_store
with open_store(sys.argv[1]).read() as db:
    print(db.exec_driver_sql("select count(*) from person").scalar())
slow = {"alembic", "mako", "sqlalchemy.orm"} & set(sys.modules)
assert not slow, slow
"""


def _run(code: str, data: Path, program: Path) -> str:
    done = subprocess.run(
        [sys.executable, "-c", code, str(data)], env={**os.environ, "PYTHONPATH": str(program)}, cwd=program,
        capture_output=True, text=True, check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def _without_source(tmp_path: Path, bundled: str) -> Path:
    """The program with compiled files alone, as a packaged app has it."""
    program = tmp_path / "program"
    ignore = shutil.ignore_patterns("__pycache__", "ui", "actions", "device", "exchange")
    shutil.copytree(ROOT / "app", program / "app", ignore=ignore)
    shutil.copytree(ROOT / "migrations", program / bundled, ignore=ignore)
    compileall.compile_dir(program, legacy=True, quiet=1)
    for source in program.rglob("*.py"):
        source.unlink()
    return program


@pytest.mark.parametrize("bundled", ["app/_bundled/migrations", "migrations"])
def test_it_works_compiled_and_without_any_source(tmp_path: Path, bundled: str) -> None:
    """Installed from a wheel, or staged for a phone."""
    program = _without_source(tmp_path, bundled)
    _run(LOOK, tmp_path / "data", program)
    assert _run(AGAIN, tmp_path / "data", program) == "0\n"


def test_a_usual_start_does_not_load_what_is_slow(tmp_path: Path) -> None:
    """Neither Alembic nor the mapper, half a second together."""
    _run(LOOK, tmp_path / "data", ROOT)
    assert _run(AGAIN, tmp_path / "data", ROOT) == "0\n"


def test_a_program_of_before_refuses_the_upgraded_store(told: Store, tmp_path: Path) -> None:
    """Rather than guess what is new."""
    assert told.path is not None
    told.close()
    open_store(told.path, _lineage(tmp_path)).close()
    with pytest.raises(schema.NewerDatabase):
        open_store(told.path)


def test_the_story_fills_every_table(told: Store) -> None:
    """So that what is shown of it here is shown of every table."""
    with told.read() as db:
        filled = {line.split(" ", 1)[0] for line in logical_dump(db).splitlines()}
    assert filled == set(metadata.tables)
