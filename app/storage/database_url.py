"""A database named by a URL: SQLite, or a server whose driver is installed."""
from __future__ import annotations

from sqlalchemy import Engine, create_engine
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError

from app.domain.errors import WrongValue
from app.storage.sqlite_file import sqlite_engine


def read_url(words: str) -> URL:
    """The URL.

    Raises:
        WrongValue: it is none, or of a kind that is not known.
    """
    try:
        url = make_url(words)
        url.get_dialect()
    except (ArgumentError, ValueError, ImportError) as error:
        raise _wrong_url(words) from error
    return url


def engine_of(url: URL) -> Engine:
    """What connects there. Nothing is asked of it yet.

    Raises:
        WrongValue: the driver of that kind of database is not installed.
    """
    if url.get_backend_name() == "sqlite":
        return sqlite_engine(url)
    try:
        return create_engine(url)
    except (ArgumentError, ImportError) as error:
        raise _wrong_url(url.drivername) from error


def _wrong_url(words: str) -> WrongValue:
    # what stands behind the scheme may be a password
    return WrongValue(where="database URL", value=words.partition("://")[0],
                      expected="sqlite, or a kind of database whose driver is installed")
