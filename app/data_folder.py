"""What lies in a data directory beside the records, by name, for every room that puts or finds something there."""
from __future__ import annotations

#: The coach's own sources, the brands that were taken in, the apps made of them, and the shell that they are made with.
SOURCES, BRANDS, APPS, SHELL = "sources", "brands", "apps", "shell.zip"
#: What shows that a folder or an archive in one of these places is the program's, and not somebody else's.
SOURCE_HEAD, BRAND_HEAD, APP_LISTING, SHELL_ABOUT = "source.toml", "brand.toml", "files.json", "shell.json"
#: Sound tracks of running sessions.
TRACKS = "tracks"
#: The page that leads the owner's browser in, while the app is open.
WAY_IN = "open-here.html"
#: Held while the app is open.
LOCK = "in-use.lock"
#: A key that earlier versions kept.
OLD_KEY = "address.key"
#: The beginning and the end of the name of a log of an unexpected error.
ERROR_LOG, ERROR_LOG_END = "evenload-error-", ".log"
