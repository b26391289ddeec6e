"""What is to be made sure of: "make sure those clamps are tight" is "check that the clamps are tight"."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.clauses import clause_ahead
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, acting_verbs, deeds, form_said, kinds, word_set
from witnessmark.procedure.names import Name, cut_at, read_name
from witnessmark.procedure.spoken import Spoken, is_plural
from witnessmark.procedure.tails import Tail

LONGEST = 12  # words of what is made sure of
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
    told, subject = _subject(spoken, start)
    if not told or not _says(spoken, subject, plainly=size == 1):
        return None
    said, end = _said(spoken, subject)
    if not said or (len(said) < 2 and (subject == start + 1 or said[0] in word_set("auxiliaries"))):
        return None
    if spoken.text(end - 2) in ("this", "that") and spoken.text(end - 1) in word_set("vague"):
        return None  # "your wrench clicks going that way": only to be seen
    open_question = spoken.texts[start - 1] in ("if", "whether")
    if open_question and spoken.text(index - 1) in word_set("wonders"):
        return None
    if said[0] in word_set("past_states") and spoken.texts[index:start][:1] in (("see",), ("feel",), ("watch",)):
        return None  # "see that it did n't wipe": what was seen
    tail = Tail([" ".join([told, *said])], end)
    verb = "check whether" if open_question else "check that"
    return Action(index, end, Deed((verb,), "inspect"), None, tail, False, "verb", sure=True)


def _without_verb(spoken: Spoken, name: Name) -> Name:
    """The name without the verb that was read as its last word: "the shaft | wobbles", "the pawl | clicks in"."""
    last, text = name.end - 1, spoken.text(name.end - 1)
    if name.end - name.start < 3 or last in spoken.sighting_over or not is_plural(text):
        return name
    verb = bool(kinds(text).verb) and not _says(spoken, name.end, plainly=False)
    return cut_at(spoken, name, last) if verb or text in word_set("assured_verbs") else name


def _subject(spoken: Spoken, start: int) -> tuple[str, int]:
    """What it is said of, "" where nothing is, and the token after it."""
    name = read_name(spoken, start)
    if name is not None and not name.vague:
        name = _without_verb(spoken, name)
        return name.text, name.end
    text = spoken.text(start)
    if text not in word_set("assured_subjects"):
        return "", start
    if text == "they" and spoken.text(start + 1) in ("all", "both", "each"):
        return f"they {spoken.text(start + 1)}", start + 2
    return text, start + 1


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
    while i < len(spoken.texts) and len(said) < LONGEST and not spoken.stops_before(i) and not _ends(spoken, i, index):
        text = spoken.texts[i]
        said.append("came" if text == "come" and i == index else WHOLE.get(text, text))
        i += 1
    if len(said) == LONGEST or (said and said[-1] in word_set("unfinished")):
        joined = next((n for n in range(len(said) - 1, 1, -1) if said[n] == "and"), 0)
        del said[joined or len(said) :]
    while said and said[-1] in word_set("unfinished") | word_set("prepositions") - word_set("particles") | {
        "and",
        "going",
    }:
        said.pop()
    return said, i


def _ends(spoken: Spoken, i: int, index: int) -> bool:
    """Whether what is made sure of, which its verb at `index` begins, is over before a token."""
    text, before, follows = spoken.text(i), spoken.text(i - 1), spoken.text(i + 1)
    own = text in ("my", "your", "his", "her", "mine") and before not in word_set("prepositions")
    return (
        text in PUNCTUATION
        or text in word_set("assured_ends")
        or text in ("i", "we", "you", "our", "us")
        or own
        or spoken.value_over.get(i) is not None
        or (text == "point" and follows in word_set("numbers"))  # a figure nobody read as one
        or (text == "not" and i > index + 1 and follows in word_set("numbers") | {"a", "just", "too", "like"})
        or (text == "and" and (follows in ("there", "that", "this") or _goes_somewhere(spoken, i + 1)))
        or (text in ("that", "this") and follows == "way")
        or (text in ("it", "they") and i > index and before != "and" and follows in word_set("auxiliaries"))
        or (i > index and _begins_deed(spoken, i))
        or (before in word_set("particles") and clause_ahead(spoken, i))
    )


def _goes_somewhere(spoken: Spoken, index: int) -> bool:
    """Whether a thing is named that then goes somewhere: "and the guard goes back over it"."""
    name = read_name(spoken, index)
    return name is not None and not name.vague and spoken.text(name.end) in ("goes", "comes", "gets")


def _begins_deed(spoken: Spoken, i: int) -> bool:
    """Whether the next thing to do begins at a token: "the wires are clear put the guard on"."""
    text, before, follows = spoken.text(i), spoken.text(i - 1), spoken.text(i + 1)
    led = before in word_set("auxiliaries") | word_set("determiners") | {"to", "and", "or"}
    acts = kinds(text).verb == text and text in acting_verbs() and text not in word_set("seldom_verbs")
    particle = (text, follows) in deeds() and text not in spoken.nouns
    return acts and not led and (follows in word_set("determiners") | word_set("objects") or particle)
