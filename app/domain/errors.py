"""Everything that can be wrong with what we were given.

AppError ── ContentError   a source, client, place or diary says something impossible
         ├─ FileError      a pack, return or reply is not what it should be
         ├─ StorageError   the store cannot be used as it is
         ├─ SecretError    a passphrase or a PIN is missing, wrong or too easy
         └─ DeviceError    the machine lacks or refuses something; never stops a session

An error carries data; `app/words/text.py` words it.
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


class PoorContrast(ContentError):
    """where, theme, words, ground, words_colour, ground_colour, ratio, least: two inks that are too close to read."""


class BadFigure(ContentError):
    """where, findings: a moving figure that can be read and does not pass its checks."""


class TooShort(ContentError):
    """session, least_s, asked_s: the session does not fit into the minutes that the client has."""


class FileError(AppError):
    """A pack, return or reply is refused. Nothing of it was kept."""


class NotOurFile(FileError):
    """name, found: the first line is not one of ours, or of the kind `found` where another was asked for."""


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


class TooLargeToPaste(TooLarge):
    """name, limit, found: more bytes than its text form is made for."""


class AnotherKey(UntrustedSigner):
    """name, who: a key under a coach's name, for whom another key is known here."""


class NotFollowed(UntrustedSigner):
    """name, who: signed by a coach whom this person does not follow, or not any more."""


class RetiredKey(UntrustedSigner):
    """name, who: signed by a key that its coach has replaced."""


class OlderKeys(UntrustedSigner):
    """name, who: a statement about a coach's keys that is no newer than the one that was believed, or of a day to come.
    """


class UnsafeEntry(FileError):
    """name, entry: a path inside that points outside, a link, or the same name twice."""


class StorageError(AppError):
    """The store cannot be used as it is. It was not changed."""


class NewerDatabase(StorageError):
    """path, found, known: written by a newer version of the program."""


class DamagedDatabase(StorageError):
    """path, kept: it cannot be read, or a row is not as written; set aside under `kept`, or left at `path`."""


class NoRoom(StorageError):
    """path: the disk is full."""


class StoreBusy(StorageError):
    """path: another program holds the store."""


class AlreadyOpen(StoreBusy):
    """path, page: the app is open on this data directory; `page` leads into it, if there is one."""


class NoAccess(StorageError):
    """path: the file or its folder cannot be read or written: rights, or a failing disk."""


class EraseUnfinished(StorageError):
    """path: what was erased is gone from the rows; traces stay in the journal while another program reads the store."""


class NoCopy(StorageError):
    """path: there is no whole copy of the store to go back to."""


class NotOurStore(StorageError):
    """path: a database of something else."""


class SecretError(AppError):
    """Something that only its owner knows is missing, wrong or too easily guessed. Nothing was opened or changed."""


class PassphraseNeeded(SecretError):
    """name: sealed under a passphrase, and none was given."""


class WrongPassphrase(SecretError):
    """name: the passphrase opens nothing here, or what it would open was changed; nobody can tell which."""


class EasyPassphrase(SecretError):
    """least: it has fewer characters than that, or hardly any different ones."""


class KeysLocked(SecretError):
    """The coach's keys are under a passphrase, and it has not been given since the program began."""


class WrongKeyPassphrase(SecretError):
    """The coach's keys open with another passphrase, or what is kept of them was changed."""


class SheetFirst(SecretError):
    """Nothing is locked while the recovery sheet is not on paper: it is the way back from a forgotten passphrase."""


class EasyPin(SecretError):
    """least, most: it is not so many digits, or they are all the same or count up or down."""


class WrongPin(SecretError):
    """Another PIN."""


class PinWaits(SecretError):
    """minutes: too many were wrong, and nothing is tried for so long."""


class DeviceError(AppError):
    """Unsupported or refused by the machine."""


class NoPrivateFiles(DeviceError):
    """why: the browser gives this page no private files, so nothing could be kept."""


class Elsewhere(DeviceError):
    """name: outside the app's own folder, or at another address. Nothing was asked for there."""


class NothingThere(DeviceError):
    """name: the app's own folder holds nothing of that name."""


class NoNetwork(DeviceError):
    """name: the app's own address does not answer."""


class NoLinks(DeviceError):
    """name: a link to a file leads nowhere where the app has no address on the web."""


class PortTaken(DeviceError):
    """port: the port that was asked for is in use, reserved or no port number."""
