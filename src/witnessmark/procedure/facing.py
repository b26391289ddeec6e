"""Which way round a thing goes: "fat side down", "with the stamp facing out", "label up"."""

from witnessmark.procedure.lexicon import kinds, word_set
from witnessmark.procedure.spoken import Spoken

MOST = 3  # words that tell which side


def facing(spoken: Spoken, index: int) -> tuple[str, int] | None:
    """How a thing faces, told from a token on: (as a guide writes it, token after it); None where nothing tells it."""
    i = index + 1 if spoken.text(index) == "with" else index
    i += spoken.text(i) in word_set("determiners")
    words: list[str] = []
    while len(words) < MOST and not spoken.stops_before(i + 1):
        text = spoken.text(i)
        words.append(text)
        i += 1
        if text in word_set("sides_named"):
            return _direction(spoken, words, i)
        if text in word_set("determiners") or not (
            kinds(text).noun or kinds(text).adjective or text.isdigit() or text.endswith("ed")
        ):
            return None
    return None


def _direction(spoken: Spoken, words: list[str], index: int) -> tuple[str, int] | None:
    """The side with where it faces."""
    i = index
    turned = spoken.text(i) if spoken.text(i) in ("facing", "pointing", "looking") else ""
    i += bool(turned)
    for size in (3, 2, 1):
        said = " ".join(spoken.text(i + n) for n in range(size))
        if said in word_set("facings") and spoken.text(i + size) not in word_set("determiners"):
            where = "towards you" if said == "to you" else said
            return " ".join(word for word in ("with the", *words, turned, where) if word), i + size
    return None
