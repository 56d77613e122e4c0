"""Which version of the tables a store has, and bringing an older one up.

Alembic is slow to import and is wanted only when the version is not the newest, so the version is read first
with plain SQL and asserted afterwards: compiled to `.pyc`, a folder of migrations is empty to Alembic unless
it is told so, and then an upgrade would succeed and do nothing.
"""
from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, inspect, text

from app.domain.errors import DamagedDatabase, NewerDatabase, NotOurStore
from app.resources import resource_dir

if TYPE_CHECKING:
    from alembic.config import Config

EMPTY = ""
#: Marks a connection whose transactions write, see `database`.
WRITES = {"evenload_writes": True}


@dataclass(frozen=True)
class Lineage:
    """The versions of the tables that a program can read, oldest first, and the folder of migrations between them."""

    revisions: tuple[str, ...]
    migrations: Path | None = None
    """None: those that belong to this program."""

    @property
    def head(self) -> str:
        """The version that the program writes."""
        return self.revisions[-1]


LINEAGE = Lineage(("0001", "0002", "0003", "0004", "0005"))


def version(db: Connection, path: str, lineage: Lineage = LINEAGE) -> str:
    """The version of the tables; `EMPTY` for a store without any.

    Raises:
        NewerDatabase: written by a newer version of the program.
        NotOurStore: it holds tables of something else.
        DamagedDatabase: it holds ours and does not say which.
    """
    names = set(inspect(db).get_table_names())
    if not names:
        return EMPTY
    if "alembic_version" not in names or not (names == {"alembic_version"} or "person" in names):
        raise NotOurStore(path=path)
    found = db.execute(text("select version_num from alembic_version")).scalar()
    if found is None and "person" in names:
        raise DamagedDatabase(path=path, kept=path)
    if found is None:
        return EMPTY
    if found not in lineage.revisions:
        raise NewerDatabase(path=path, found=str(found), known=lineage.head)
    return str(found)


def upgrade(engine: Engine, lineage: Lineage = LINEAGE) -> None:
    """Brings the tables to the newest version, in one transaction.

    Foreign keys are off meanwhile: SQLite changes a table by making it anew and dropping the old one, which
    would take every row that refers to it along. They are checked before the end instead.
    """
    from alembic import command

    with engine.connect() as db:
        db.execution_options(**WRITES)
        lite = db.dialect.name == "sqlite"
        if lite:
            _pragma(db, "foreign_keys = OFF")
        try:
            with db.begin():
                command.upgrade(alembic_config(lineage.migrations or resource_dir("migrations"), db), "head")
                _assert_sound(db, lineage.head)
        finally:
            if lite:
                _pragma(db, "foreign_keys = ON")


def _pragma(db: Connection, words: str) -> None:
    """Outside any transaction, where alone `foreign_keys` takes effect."""
    driver = db.connection.dbapi_connection
    if driver is not None:
        driver.cursor().execute(f"PRAGMA {words}")


def _assert_sound(db: Connection, head: str) -> None:
    found = db.execute(text("select version_num from alembic_version")).scalar()
    if found != head:
        raise RuntimeError(f"the upgrade ended at {found!r} and not at {head!r}: migrations are missing")
    if db.dialect.name == "sqlite":
        broken = db.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
        if broken:
            raise RuntimeError(f"the upgrade left rows without the row they refer to: {broken[:3]}")


def alembic_config(migrations: Path, db: Connection | None = None) -> Config:
    """Alembic's settings, without any file. Compiled revisions count where there is no source beside them."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(migrations).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    # not always: beside source, a stale cache file of a revision since renamed would count as one
    if not any((migrations / "versions").glob("*.py")):
        config.set_main_option("sourceless", "true")
    if db is not None:
        config.attributes["connection"] = db
    return config
