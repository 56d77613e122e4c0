"""Everything that can be wrong with what we were given.

AppError ── ContentError   a source, client, place or diary says something impossible
         ├─ FileError      a pack, return or reply is not what it should be
         ├─ StorageError   the store cannot be used as it is
         └─ DeviceError    the machine lacks or refuses something; never stops a session

An error carries data; `app/text.py` words it.
"""
from __future__ import annotations


class AppError(Exception):
    """A thing that went wrong and can be said in a sentence. `what` is data for that sentence."""

    def __init__(self, **what: object) -> None:
        super().__init__(type(self).__name__, what)
        self.what = what


class ContentError(AppError):
    """The words are readable and what they say cannot be."""


class UnknownName(ContentError):
    """kind, name, known: a slug that nothing answers to."""


class WrongValue(ContentError):
    """where, value, expected: a value out of its range or of the wrong kind."""


class UnreadableSource(ContentError):
    """where, why: a file of the coach's source that cannot be read."""


class TooShort(ContentError):
    """session, least_s, asked_s: the session does not fit into the minutes that the client has."""


class NoSafeSession(ContentError):
    """session: nothing of the session is left after today's limits."""


class FileError(AppError):
    """A pack, return or reply is refused. Nothing of it was kept."""


class NotOurFile(FileError):
    """name: the first line is not one of ours."""


class NewerFormat(FileError):
    """name, found, known: written by a newer major version."""


class DamagedFile(FileError):
    """name, why: truncated, changed or inconsistent."""


class UntrustedSigner(FileError):
    """name, who: the key is not the one that was agreed on."""


class WrongRecipient(FileError):
    """name: sealed for someone else."""


class TooLarge(FileError):
    """name, limit, found: over one of the limits read before anything is unpacked."""


class UnsafeEntry(FileError):
    """name, entry: a path inside that points outside, a link, or the same name twice."""


class StorageError(AppError):
    """The store cannot be used as it is. It was not changed."""


class NewerDatabase(StorageError):
    """path, found, known: written by a newer version of the program."""


class DamagedDatabase(StorageError):
    """path, kept: SQLite cannot read it; it was set aside under `kept`."""


class NoRoom(StorageError):
    """path: the disk is full."""


class StoreBusy(StorageError):
    """path: another program holds the store."""


class NoAccess(StorageError):
    """path: the file or its folder cannot be read or written: rights, or a failing disk."""


class NoCopy(StorageError):
    """path: there is no whole copy of the store to go back to."""


class NotOurStore(StorageError):
    """path: a database of something else."""


class DeviceError(AppError):
    """Unsupported or refused by the machine."""


class PortTaken(DeviceError):
    """port: the port that was asked for is in use, reserved or no port number."""
