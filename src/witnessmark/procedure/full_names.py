"""Short names told in full: which band, which screws."""

from collections.abc import Sequence

from witnessmark.language.words import singular
from witnessmark.procedure.lexicon import phrase_table, word_set
from witnessmark.procedure.spoken import Spoken, display, is_plural, plural_of
from witnessmark.reading.sightings import Sighting

RECALL = 220  # tokens back within which a full name is remembered
LATELY = 60  # the same where the table has another thing that the short name fits
NEAR_BEFORE, NEAR_AFTER = 60, 20  # tokens around a short name where another word of the full one is said


def fuller(
    spoken: Spoken, text: str, at: int, sightings: Sequence[Sighting], reach: int = RECALL, held: bool = True
) -> str:
    """A short name told in full:
    "the band" where only one band was named before, "the screws" of the part just named.

    reach: tokens back within which the full name counts. held: whether the part just named tells which fasteners.
    """
    *before, head = text.split()
    if any(word not in word_set("short_leads") for word in before) or any(s.item for s in sightings):
        return text
    count = " ".join(word for word in before if word not in ("the", "a", "an", "that"))
    lead = f"the {count}".strip() if before and before[0] not in word_set("kept_articles") else " ".join(before)
    if singular(head) in word_set("generic_fasteners"):
        part = part_before(spoken, at) if held else None
        tabled = _tabled(spoken, at, head)
        if tabled and (held or is_plural(tabled) == is_plural(head)):
            counted = is_plural(tabled) and not {"a", "an", "each", "every"} & set(before)
            return f"{lead} {tabled}" if counted else f"the {tabled}"
        if part and part.split()[-1] != singular(head):
            return f"{lead} {part} {head}"
        if not held:
            return text
    name = _said_in_full(spoken, at, head, reach)
    if name is None:
        part = _part_of_table(spoken, at, singular(head))
        name = plural_of(part) if part and is_plural(head) else part
    return f"{lead} {name}" if name else text


def _said_in_full(spoken: Spoken, at: int, said: str, reach: int) -> str | None:
    """The one full name with this last word that was said lately; "" where it is doubtful, None where there is none."""
    head = singular(said)
    recent = [(place, name) for place, name in spoken.full_names.get(head, ()) if at - reach <= place < at]
    names = {singular_of(name) for _, name in recent}
    if len(names) != 1 or (is_plural(said) and not is_plural(recent[-1][1])):
        return "" if names else None
    others = {name for name in (*spoken.table_names, *spoken.table_parts) if singular(name.split()[-1]) == head}
    doubtful = {singular_of(name) for name in others} - names and at - recent[-1][0] > LATELY
    name = recent[-1][1]
    return "" if doubtful else name if is_plural(said) else singular_of(name)


def _part_of_table(spoken: Spoken, at: int, head: str) -> str:
    """The one part with this head whose fasteners the table names, where its other words are said close by."""
    names = {name for name in spoken.table_parts if name.split()[-1] == head}
    if len(names) != 1 or spoken.full_names.get(head):
        return ""
    name = names.pop()
    near = set(spoken.speech.lemmas[max(0, at - NEAR_BEFORE) : at + NEAR_AFTER])
    return name if set(name.split()[:-1]) & near else ""


def _tabled(spoken: Spoken, at: int, said: str) -> str | None:
    """The one name of the table with this head whose other words were said close by more than any other's."""
    head = singular(said)
    near = set(spoken.speech.lemmas[max(0, at - 25) : at + 12])
    scored = []
    for name in spoken.table_names:
        words = {singular(word) for word in name.replace(",", "").split()}
        if head in words:
            scored.append((len((words - {head}) & near), name))
    scored.sort(reverse=True)
    if not scored or scored[0][0] == 0 or (len(scored) > 1 and scored[1][0] == scored[0][0]):
        return None
    name = scored[0][1]
    return name if is_plural(name) or not is_plural(said) else None


def part_before(spoken: Spoken, at: int) -> str | None:
    """The part just named in the same utterance."""
    start = spoken.utterances[spoken.utterance_of[at]].start
    near = [s for s in spoken.sightings if s.kind == "part" and max(start, at - 18) <= s.start and s.end <= at]
    return singular_of(display(spoken, near[-1])) if near else None


def part_held(item: str) -> str:
    """The part that a fastener of the table holds: "chain guard" for the chain guard bolts; "" where the name tells none."""
    ends = {*phrase_table("verbs", "fasteners")["heads"], *word_set("says_of_fastener")}
    words = item.split(",")[0].split()
    if singular(words[-1]) not in phrase_table("verbs", "fasteners")["heads"]:
        return ""
    while words and singular(words[-1]) in ends:
        words.pop()
    return " ".join(words)


def singular_of(name: str) -> str:
    """A name with its last word in the singular."""
    *rest, head = name.split()
    return " ".join([*rest, singular(head)])


def bare_item(item: str) -> str:
    """A table's name without the words that say what its value is: "wheel nut recheck" is of the wheel nut."""
    words = [word for word in item.split() if word not in phrase_table("measures", "kinds_in_names")["words"]]
    return " ".join(words) or item
