"""What is announced and not done yet: "in a minute we'll take the tines off, but first the fuel tap"."""

from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import forms_among, phrase_table, word_set
from witnessmark.procedure.spoken import Spoken

BACK, AHEAD = 16, 14  # tokens before and behind a deed in which it is announced, and in which it is put off


def put_off(spoken: Spoken, action: Action) -> bool:
    """Whether a deed is announced before it and put off behind it, where it will be told again when it is done."""
    before = spoken.texts[max(0, action.start - BACK) : action.start]
    if not forms_among(before, phrase_table("frames", "announces")):
        return False
    for i in range(action.end, min(action.end + AHEAD, len(spoken.texts) - 1)):
        if spoken.texts[i] == "but":
            return spoken.texts[i + 1] in word_set("puts_off")
    return False
