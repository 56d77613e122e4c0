"""Names as people read them: two that look alike are told apart by nobody.

A name is brought down to what is seen of it: compatibility forms (full-width, ligatures), case, accents put together
(NFC and NFD alike), what is invisible or only turns the direction, blanks and marks at its ends, and letters of other
scripts that look like Latin ones (after Unicode Technical Standard 39, the lower-case letters alone).
"""
from __future__ import annotations

import unicodedata
from functools import lru_cache

#: Cyrillic, Greek, Armenian, Cherokee and other letters that are drawn like a Latin one, folded to it.
_DRAWN_LIKE = str.maketrans({
    "а": "a", "ӕ": "æ", "в": "b", "ь": "b", "с": "c", "ԁ": "d", "е": "e", "ҽ": "e", "һ": "h", "і": "i", "ј": "j",
    "к": "k", "ӏ": "l", "м": "m", "п": "n", "о": "o", "р": "p", "ԛ": "q", "г": "r", "ѕ": "s", "т": "t", "ц": "u",
    "ѵ": "v", "ԝ": "w", "х": "x", "у": "y", "ү": "y", "α": "a", "β": "b", "ε": "e", "η": "n", "ι": "i", "κ": "k",
    "ν": "v", "ο": "o", "ρ": "p", "σ": "o", "ς": "c", "τ": "t", "υ": "u", "χ": "x", "γ": "y", "ω": "w", "ϲ": "c",
    "ϳ": "j", "օ": "o", "ո": "n", "ս": "u", "հ": "h", "ց": "g", "զ": "q", "ı": "i", "ȷ": "j", "ɑ": "a", "ɡ": "g",
    "ɩ": "i", "ʏ": "y", "ᴏ": "o", "ᴄ": "c", "ᴠ": "v", "ᴡ": "w", "ᴢ": "z", "ɴ": "n", "ʀ": "r", "ꞵ": "b", "ø": "o",
    "ł": "l", "đ": "d", "ħ": "h", "ŧ": "t", "0": "o", "1": "l", "|": "l", "ǀ": "l", "’": "'", "ʼ": "'", "‘": "'",
    "`": "'", "´": "'", "‐": "-", "‑": "-", "–": "-", "—": "-", "−": "-", "_": "-",
})
#: At an end these are not seen as part of a name.
#: Characters that make what follows run the other way.
_TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Mn", "Me"})
#: Letters that stand for nothing.
_FILLERS = "\u115f\u1160\u3164\uffa0"
_AT_ENDS = " .,;:·-'\"!?…"


@lru_cache(maxsize=8_192)  # a desk compares every new name with all that it knows
def skeleton(name: str) -> str:
    """What is left of a name once everything that two readers could miss is taken away; empty for a blank one."""
    folded = unicodedata.normalize("NFKD", unicodedata.normalize("NFKC", name).casefold())
    seen = "".join(c for c in folded if _is_seen(c)).translate(_DRAWN_LIKE)
    return " ".join(unicodedata.normalize("NFKC", seen).casefold().split()).strip(_AT_ENDS)


def reads_like(one: str, other: str) -> bool:
    """Whether two names are read as the same. A blank name is like no other."""
    bare = skeleton(one)
    return bool(bare) and bare == skeleton(other)


def can_be_seen(name: str) -> bool:
    """Whether there is anything to read, in the order in which it is written."""
    return any(_is_seen(c) and not c.isspace() for c in name) and not any(
        "\x80" <= c <= "\x9f" or c in _TURNING for c in name)


def _is_seen(char: str) -> bool:
    """No control, no format or joiner, no accent, no letter that stands for nothing."""
    if char.isspace():
        return True
    return unicodedata.category(char) not in _UNSEEN and char not in _FILLERS
