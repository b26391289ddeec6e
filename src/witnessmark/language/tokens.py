"""Caption words cut into the tokens that every rule reads.

Speech has no typography, so the tokens have none either: lower case, no hyphen inside a term (`foot-pounds` is `foot` `pounds`), but a number
keeps what belongs to it (`2.5`, `3/8`, `0w-20`, `m8x1.25`, `t20`) and lets go of its unit (`10mm` is `10` `mm`).
"""

import re
import unicodedata
from functools import cache

from witnessmark.data import read_toml

VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_FOLD = str.maketrans(
    {
        "’": "'",
        "‘": "'",
        "“": '"',
        "”": '"',
        "–": "-",
        "—": "-",
        "−": "-",
        "‑": "-",
        "×": "x",
        "⋅": "·",
        "•": "·",
        "º": "°",
        "\N{OHM SIGN}": "ohm",
        "\N{GREEK CAPITAL LETTER OMEGA}": "ohm",
    }
)

_PIECE = re.compile(
    r"""
    \d+w-?\d+                                # oil grade: 0w-20
  | m\d+(?:\.\d+)?(?:x\d+(?:\.\d+)?)?\b      # metric thread: m8x1.25
  | (?:tp|ph|pz|t|e)\d+(?=s?\b)              # hexalobular and cross-recess sizes
  | \d{1,3}(?:,\d{3})+(?:\.\d+)?             # 62,000
  | \d+:\d{2}(?::\d{2})?                     # a time of day or of the recording
  | \d+/\d+                                  # 3/8
  | \d*\.\d+                                 # 2.5 and .044
  | \d+(?:st|nd|rd|th)\b                     # 3rd
  | \d+
  | °[cf]\b
  | (?:lbf|ft|in|n|kgf)[·.*](?:m|ft|in|lbf|lb|cm)\b  # n·m, lbf·ft
  | [a-z]+(?='(?:s|ll|re|ve|m|d|t|all)\b)    # the word before a contraction
  | '(?:s|ll|re|ve|m|d|t|all)\b
  | [^\W\d_]+'?(?=\b)
  | [$£€%°\#+&"]
  | [()]
  | [.,?!;:](?=$|[)"'\]])                    # punctuation that ends the word
  | (?<=\d)-(?=\d)                           # 30-36
    """,
    re.VERBOSE,
)
_NEGATED = re.compile(r"^(do|does|did|is|are|was|were|has|have|had|would|could|should|must|need|ai|ca|wo)n't$")
_WHOLE = {"ca": "can", "wo": "will"}


@cache
def _dialect() -> dict[str, tuple[str, ...]]:
    """Every spelling of data/dialect.toml with the tokens it is read as."""
    words: dict[str, str] = read_toml("dialect.toml")["words"]
    return {spelling: tuple(read_as.split()) for spelling, read_as in words.items()}


def tokenize(word: str) -> tuple[str, ...]:
    """The tokens of one written word of the captions, folded to lower case; () where it holds no speech.

    >>> tokenize("foot-pounds.")
    ('foot', 'pounds', '.')
    >>> tokenize("don't"), tokenize("10mm")
    (('do', "n't"), ('10', 'mm'))
    """
    if word == "n't" or (word.isascii() and word.isalpha() and word.islower()):
        return _dialect().get(word, (word,))  # most words, and nothing else about them to fold
    text = word
    for sign, fraction in VULGAR.items():
        if sign in text:
            text = re.sub(rf"(?<=\d){sign}", f" {fraction}", text).replace(sign, fraction)
    text = unicodedata.normalize("NFKC", text.translate(_FOLD)).casefold().translate(_FOLD)
    spoken = text.rstrip(".,?!;:")
    if spoken in _dialect():
        return (*_dialect()[spoken], *_PIECE.findall(f"x{text[len(spoken) :]}")[1:])
    negated = _NEGATED.match(text.rstrip(".,?!;:"))
    if negated:
        return (_WHOLE.get(negated[1], negated[1]), "n't", *_PIECE.findall(text[negated.end() :]))
    return tuple(
        piece.rstrip("'").replace(",", "") if piece[0].isdigit() else piece.rstrip("'") or "'"
        for piece in _PIECE.findall(text)
    )


SENTENCE_END = frozenset(".?!;")
PUNCTUATION = frozenset(".,?!;:()")
