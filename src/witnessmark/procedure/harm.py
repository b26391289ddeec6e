"""What would hurt somebody: "the door will swing back and trap your thumb" tells nobody to swing it."""

from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import kinds, word_set
from witnessmark.procedure.spoken import Spoken

REACH = 10  # tokens back within which what would happen is told


def hurts(spoken: Spoken, action: Action) -> bool:
    """Whether an action is what would happen of itself, and hurts: the hurt itself, or what leads to it."""
    return _led_by_will(spoken, action) and (_is_hurt(spoken, action.start) or _hurt_follows(spoken, action))


def _led_by_will(spoken: Spoken, action: Action) -> bool:
    """Whether "will" of a thing stands inside an action, or before it with no "then" between."""
    for i in range(action.end - 1, max(action.start - REACH, 0), -1):
        if spoken.texts[i] in ("then", "so", "but", ".") and i < action.start:
            return False
        if spoken.texts[i] in ("'ll", "will"):
            return spoken.texts[i - 1] not in ("you", "we", "i")
    return False


def _hurt_follows(spoken: Spoken, action: Action) -> bool:
    """Whether the hurt is joined to an action: "and trap your thumb"."""
    return spoken.text(action.end) == "and" and _is_hurt(spoken, action.end + 1)


def _is_hurt(spoken: Spoken, index: int) -> bool:
    """ "Cut your fingers", "hit you": a verb of hurting and whom or what of theirs."""
    base, whose = kinds(spoken.text(index)).verb, spoken.text(index + 1)
    return base in word_set("harms") | word_set("hurts") and whose in ("you", "your", "yer", "somebody", "someone")
