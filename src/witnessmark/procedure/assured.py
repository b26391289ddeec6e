"""What is to be made sure of: "make sure those clamps are tight" is "check that the clamps are tight"."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, form_said, kinds, word_set
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail

LONGEST = 10  # words of what is made sure of
WHOLE = {
    "'s": "is",
    "'re": "are",
    "n't": "not",
    "'ll": "will",
    "my": "the",
    "your": "the",
    "those": "the",
    "these": "the",
    "that": "the",
    "this": "the",
}


def read_assured(spoken: Spoken, index: int, since: int) -> Action | None:
    """The check that begins at a token; None where none does."""
    del since
    size = form_said(spoken.texts, index, "verbs", "assure")
    if not size:
        return None
    start = index + size
    if spoken.text(start) == "that" and spoken.text(start + 1) in word_set("determiners") | word_set("pronouns"):
        start += 1
    name = read_name(spoken, start)
    subject = (
        name.end
        if name is not None and not name.vague
        else start + 1
        if spoken.text(start) in ("it", "they", "there")
        else None
    )
    if subject is None or (
        spoken.text(subject) not in word_set("assured_verbs")
        and not (kinds(spoken.text(subject)).verb and spoken.text(subject).endswith("s"))
    ):
        return None
    said = [name.text] if name is not None and not name.vague else [spoken.texts[start]]
    i = subject
    while i < len(spoken.texts) and i - subject < LONGEST and not spoken.stops_before(i):
        text = spoken.texts[i]
        if text in PUNCTUATION or text in word_set("assured_ends") or text in ("i", "we", "you", "our", "us"):
            break
        said.append(WHOLE.get(text, text))
        i += 1
    if i - subject < 2:
        return None
    tail = Tail([" ".join(said)], i)
    return Action(index, i, Deed(("check that",), "inspect"), None, tail, False, "verb", sure=True)
