"""Text of unknown origin made harmless where it is printed."""

import json
import re
import unicodedata

from witnessmark.proof.wording import clock

_UNSEEN = "\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff\U000e0000-\U000e007f"
_CONTROLS = re.compile(f"[\x00-\x08\x0b-\x1f{_UNSEEN}]")
_UNSEEN_IN_JSON = re.compile(f"[{_UNSEEN}]")
_INLINE = re.compile(r"([\\`*_{}\[\]<>#|~$!&])")
_LINE_START = re.compile(r"^(\s*)([-+=:])")
_DOTTED = re.compile(r"^(\s*\d+)([.)])(?=\s|$)")


def printable(text: str) -> str:
    """A text on one line, without control characters and marks that turn the direction of writing."""
    return " ".join(_CONTROLS.sub("", unicodedata.normalize("NFC", text)).split())


def markdown(text: str) -> str:
    """A text as Markdown that shows it as it stands: on one line, nothing in it read as markup.

    >>> markdown("1. *bold* <b>")
    '1\\\\. \\\\*bold\\\\* \\\\<b\\\\>'
    """
    escaped = _INLINE.sub(r"\\\1", printable(text))
    dotted = _DOTTED.sub(r"\1\\\2", escaped)
    return dotted if dotted != escaped else _LINE_START.sub(r"\1\\\2", escaped)


def json_text(text: str) -> str:
    """JSON in which characters that nobody sees, or that turn the direction of writing, are told by their numbers."""
    return _UNSEEN_IN_JSON.sub(lambda found: json.dumps(found[0])[1:-1], text)


def precise(seconds: float) -> str:
    """A time to the tenth of a second, for cutting: 4:07.9."""
    tenths = round(max(0.0, seconds) * 10)
    return f"{clock(tenths / 10 + 0.001)}.{tenths % 10}"
