"""What is to be made sure of: "make sure those clamps are tight" is "check that the clamps are tight"."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.clauses import clause_ahead
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
        if spoken.text(start) in word_set("assured_subjects")
        else None
    )
    if subject is None or not _says(spoken, subject, plainly=size == 1):
        return None
    said, end = _said(spoken, subject)
    if len(said) < 2:
        return None
    told = name.text if name is not None and not name.vague else spoken.texts[start]
    tail = Tail([" ".join([told, *said])], end)
    return Action(index, end, Deed(("check that",), "inspect"), None, tail, False, "verb", sure=True)


def _says(spoken: Spoken, index: int, plainly: bool) -> bool:
    """Whether a verb of the thing stands here. plainly: only what no other reading fits counts: "check it's level"."""
    text = spoken.text(index)
    if plainly:
        return text in ("is", "'s", "are", "'re", "has")
    return text in word_set("assured_verbs") or bool(kinds(text).verb and text.endswith("s"))


def _thing_moves(spoken: Spoken, index: int) -> bool:
    """Whether a thing that goes somewhere is told from a token on: "and the guard goes back"."""
    name = read_name(spoken, index) if spoken.text(index) in word_set("determiners") else None
    return name is not None and not name.vague and spoken.text(name.end) in ("goes", "comes", "gets")


def _said(spoken: Spoken, index: int) -> tuple[list[str], int]:
    """What is to be so, and the token after it: up to a stop, a figure, the speaker or the next clause."""
    said: list[str] = []
    i = index
    while i < len(spoken.texts) and i - index < LONGEST and not spoken.stops_before(i):
        text = spoken.texts[i]
        own = text in ("my", "your", "his", "her", "mine") and spoken.text(i - 1) not in word_set("prepositions")
        if (
            text in PUNCTUATION
            or text in word_set("assured_ends")
            or text in ("i", "we", "you", "our", "us")
            or own
            or spoken.value_over.get(i) is not None
            or (text == "point" and spoken.text(i + 1) in word_set("numbers"))  # a figure nobody read as one
            or (spoken.text(i - 1) in word_set("particles") and clause_ahead(spoken, i))
            or (text == "and" and _thing_moves(spoken, i + 1))
        ):
            break
        said.append("came" if text == "come" and i == index else WHOLE.get(text, text))
        i += 1
    while said and said[-1] in word_set("unfinished") | word_set("prepositions") - word_set("particles"):
        said.pop()
    return said, i
