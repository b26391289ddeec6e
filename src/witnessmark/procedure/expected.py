"""What is to be found: "the drum should turn freely", "the rollers are supposed to be round", told as a check."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.language.words import base_forms
from witnessmark.procedure.deed import Action
from witnessmark.procedure.lexicon import Deed, form_of, form_said, phrase_table, word_set
from witnessmark.procedure.moods import words_before
from witnessmark.procedure.names import Name, read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tails import Tail

LONGEST = 9  # words of what is expected


def read_expected(spoken: Spoken, index: int, since: int) -> Action | None:
    """The check that a thing's name begins, with what the thing should be or do; None where none does."""
    thing = read_name(spoken, index)
    if thing is None or thing.vague or not _said_at_all(spoken, index, since):
        return None
    size = form_said(spoken.texts, thing.end, "frames", "expects")
    if not size or spoken.stops_before(thing.end):
        return None
    told = _told(spoken, thing, thing.end + size)
    if told is None:
        return None
    words, end = told
    tail = Tail([f"{thing.text} {words}"], end, sightings=thing.sightings)
    return Action(index, end, Deed(("check that",), "inspect"), None, tail, False, "thing", sure=True)


def _said_at_all(spoken: Spoken, index: int, since: int) -> bool:
    """Whether no condition or relative word stands before it."""
    before = words_before(spoken, index, since)
    return not before or before[-1] not in word_set("conditions") | word_set("prepositions")


def _told(spoken: Spoken, thing: Name, at: int) -> tuple[str, int] | None:
    """What the thing does, in the present tense, and the token after it."""
    denied = spoken.text(at) in ("not", "n't", "never")
    base = spoken.text(at + denied)
    if base not in phrase_table("frames", "expects")["behaves"] or spoken.stops_before(at + denied):
        return None
    end = at + denied + 1
    words: list[str] = []
    while end < len(spoken.texts) and len(words) < LONGEST and not spoken.stops_before(end):
        text = spoken.texts[end]
        if text in PUNCTUATION or text in word_set("expected_ends"):
            break
        if spoken.value_over.get(end) is not None:
            return None  # a value is told by its own rule
        words.append(text)
        end += 1
    if (
        not words
        or words[-1] in word_set("unfinished")
        or (base == "come" and words[0] in ("off", "out", "apart", "up"))
    ):
        return None
    return " ".join([_present(base, thing.plural, denied), *words]).replace(" '", "'"), end


def _present(base: str, plural: bool, denied: bool) -> str:
    """A verb in the present tense, of one thing or of several."""
    if denied:
        return f"{'do' if plural else 'does'} not {base}"
    return base if plural else next(form for form in sorted(base_forms(base)) if form_of(form, base) == "s")
