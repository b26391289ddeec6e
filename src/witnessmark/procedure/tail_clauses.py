"""Whole clauses that end an instruction: a condition, and a place told by what is or was there."""

from witnessmark.language.tokens import PUNCTUATION
from witnessmark.procedure.lexicon import acting_verbs, kinds, phrase_table, word_set
from witnessmark.procedure.names import read_name
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.tail import Tail

LONGEST_IF = 8


def if_so(spoken: Spoken, tail: Tail) -> bool:
    """A condition that ends what is said: "replace the seal if it's leaking"."""
    if spoken.text(tail.end) != "if" or spoken.text(tail.end + 1) not in ("it", "they", "the"):
        return False
    end = next((i for i in range(tail.end + 3, tail.end + LONGEST_IF) if spoken.stops_before(i)), 0)
    words = spoken.texts[tail.end : end]
    if not words or set(words) & (word_set("persons") | {"you", "and", "or"}) or words[-1] in word_set("unfinished"):
        return False
    if set(words[2:]) & {"it", "they"}:
        return False  # "if it bubbles it leaks"
    last = -2 if words[-1] in PUNCTUATION else -1
    acts = any(w == kinds(w).verb and w in acting_verbs() for w in words[3:last])
    if acts:
        return False  # "if it rocks wind the foot down"
    tail.phrases.append(
        " ".join(word for word in words if word not in PUNCTUATION).replace(" '", "'").replace(" n't", "n't")
    )
    tail.end = end
    return True


def where_it_was(spoken: Spoken, tail: Tail) -> bool:
    """ "Where the drain plug was": a place told by what is or was there."""
    if spoken.text(tail.end) != "where":
        return False
    name = read_name(spoken, tail.end + 1)
    if name is None or name.vague or spoken.text(tail.end + 1) not in word_set("determiners"):
        return False
    for said, shown in phrase_table("tails", "there").items():
        words = tuple(said.split())
        if spoken.texts[name.end : name.end + len(words)] == words:
            plural = {"was": "were", "is": "are", "goes": "go", "sits": "sit"}.get(shown, shown)
            tail.phrases.append(f"where {name.text} {plural if name.plural else shown}")
            tail.sightings += name.sightings
            tail.end = name.end + len(words)
            return True
    return False
