"""Short names told in full: which band, which screws."""

from collections.abc import Sequence

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import phrase_table, word_set
from witnessmark.procedure.spoken import Spoken, display, is_plural
from witnessmark.reading.sightings import Sighting

RECALL = 220  # tokens back within which a full name is remembered


def fuller(spoken: Spoken, text: str, at: int, sightings: Sequence[Sighting]) -> str:
    """A short name told in full:
    "the band" where only one band was named before, "the screws" of the part just named.
    """
    *before, head = text.split()
    if any(word not in word_set("short_leads") for word in before) or any(s.item for s in sightings):
        return text
    count = " ".join(word for word in before if word not in ("the", "a", "an", "that"))
    lead = f"the {count}".strip() if before and before[0] not in word_set("kept_articles") else " ".join(before)
    known = spoken.full_names.get(singular(head), ())
    recent = [(place, name) for place, name in known if at - RECALL <= place < at]
    names = {name for _, name in recent}
    if singular(head) in word_set("generic_fasteners"):
        part = part_before(spoken, at)
        tabled = _tabled(spoken, at, singular(head))
        if tabled:
            return f"the {tabled}"
        if part and part.split()[-1] != singular(head):
            return f"{lead} {part} {head}"
    if len(names) == 1:
        name = recent[-1][1]
        return (
            f"{lead} {name}"
            if is_plural(name) == is_plural(head)
            else f"{lead} {name}"
            if not is_plural(head)
            else text
        )
    return text


def _tabled(spoken: Spoken, at: int, head: str) -> str | None:
    """The one name of the table with this head whose other words were said close by more than any other's."""
    near = set(spoken.speech.lemmas[max(0, at - 25) : at + 12])
    scored = []
    for name in spoken.table_names:
        words = {singular(word) for word in name.replace(",", "").split()}
        if head in words:
            scored.append((len((words - {head}) & near), name))
    scored.sort(reverse=True)
    if not scored or scored[0][0] == 0 or (len(scored) > 1 and scored[1][0] == scored[0][0]):
        return None
    return scored[0][1]


def part_before(spoken: Spoken, at: int) -> str | None:
    """The part just named in the same utterance."""
    start = spoken.utterances[spoken.utterance_of[at]].start
    near = [s for s in spoken.sightings if s.kind == "part" and max(start, at - 18) <= s.start and s.end <= at]
    return singular_of(display(spoken, near[-1])) if near else None


def singular_of(name: str) -> str:
    """A name with its last word in the singular."""
    *rest, head = name.split()
    return " ".join([*rest, singular(head)])


def bare_item(item: str) -> str:
    """A table's name without the words that say what its value is: "wheel nut recheck" is of the wheel nut."""
    words = [word for word in item.split() if word not in phrase_table("measures", "kinds_in_names")["words"]]
    return " ".join(words) or item
