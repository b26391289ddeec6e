"""How a thing is turned when it is fitted: "fat side down", "lettering out", "lip facing in"."""

from witnessmark.procedure.lexicon import kinds, word_set
from witnessmark.procedure.spoken import Spoken

LONGEST = 4  # words before the direction


def facing(spoken: Spoken, index: int) -> tuple[int, str] | None:
    """What of the thing faces where, told from a token on: (token behind it, "with the fat side down")."""
    start = index + 1 if spoken.text(index) == "with" else index
    if spoken.text(start) in ("the", "its", "their", "his"):
        start += 1
    for i in range(start, start + LONGEST):
        text = spoken.text(i)
        if not text or (i > index and spoken.stops_before(i)):
            return None
        told = text in word_set("faces") or (text in word_set("plain_faces") and i > start)
        end = i + 2 if spoken.text(i + 1) in ("facing", "pointing", "to", "towards") else i + 1
        if told and _is_direction(spoken, end):
            return end + 1, f"with the {' '.join(spoken.texts[start : end + 1])}"
        if not (kinds(text).adjective or kinds(text).noun or text.endswith("ed")) or text in word_set("determiners"):
            return None
    return None


def _is_direction(spoken: Spoken, index: int) -> bool:
    """Whether a token is the direction, and no preposition that leads on: "arrow up", not "lip in the groove"."""
    leads = spoken.text(index + 1) in word_set("determiners") and not spoken.stops_before(index + 1)
    return spoken.text(index) in word_set("facings") and not spoken.stops_before(index) and not leads
