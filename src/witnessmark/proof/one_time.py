"""A fastener or seal made for one use, fitted a second time.

*said*: put the old cotter pin back in · *found*: a split pin is fitted once; use a new one.
Source: common practice; the traits of data/vocabulary/fasteners.csv name their own.
"""

from collections.abc import Iterator

from witnessmark.language.cues import Cues
from witnessmark.proof.check_words import clause, find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.traits import traits_of
from witnessmark.reading.sightings import Sighting

NAME = "one-time"
BEFORE, AFTER = 9, 10
NAMED = 4  # tokens before the name in which "old" or "same" stands
ONCE = frozenset({"one time", "one-time", "single use", "single-use", "replace", "new"})


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every naming of such a thing; what is often for one use is a note, and only where "reuse" is said."""
    words = find_words(evidence.reading.speech.texts, "reuse")
    reported: set[str] = set()
    for sighting in evidence.reading.sightings:
        how = _one_time(evidence, sighting)
        if how is None or sighting.name in reported:
            continue
        span = _reused(evidence, words, sighting, always=how == "yes")
        if span is not None:
            reported.add(sighting.name)
            yield _finding(evidence, sighting, span, always=how == "yes")


def _one_time(evidence: Evidence, sighting: Sighting) -> str | None:
    """ "yes", "often" or None, by the vocabulary and by words of the table's row such as "single use"."""
    if sighting.kind not in ("fastener", "part", "supply"):
        return None
    rows = evidence.table.rows_of(sighting.item) if sighting.item else ()
    told = " ".join([*(name for row in rows for name in row.names), *(row.grade or "" for row in rows)]).casefold()
    if any(f" {words} " in f" {told} " for words in ONCE):
        return "yes"
    names = (sighting.name, *(name for row in rows for name in row.names))
    traits = frozenset().union(sighting.traits, *(traits_of(name) for name in names))
    return next((how for how in ("yes", "often") if f"one_time:{how}" in traits), None)


def _reused(evidence: Evidence, words: Cues, sighting: Sighting, always: bool) -> tuple[int, int] | None:
    """Tokens that say that it is used again; None where they are denied, told of others, or a new one is fitted."""
    low, high = clause(evidence.reading.speech, sighting.start, sighting.end, BEFORE, AFTER)
    if any(words.has(group, low, high) for group in ("negation", "fresh", "others")):
        return None
    again = words.between("again", low, high) or _used_again(evidence, sighting, high)
    if again:
        return min(sighting.start, again[0][0]), max(sighting.end, again[0][1])
    kept = words.between("kept", max(low, sighting.start - NAMED), sighting.start)
    back = words.between("back", sighting.end, high)
    if not always or not kept or (not back and not words.has("fit", max(low, kept[0][0] - 4), kept[0][0])):
        return None
    if not back and words.has("fit", low, kept[0][0]) and not _placed(words, kept[0][0], low):
        return None
    return kept[0][0], back[0][1] if back else sighting.end


def _used_again(evidence: Evidence, sighting: Sighting, high: int) -> tuple[tuple[int, int], ...]:
    """As in "use the crush washer again"."""
    texts = evidence.reading.speech.texts
    use = next((i for i in range(max(0, sighting.start - NAMED), sighting.start) if texts[i] in ("use", "using")), None)
    again = "again" in texts[sighting.end : min(high, sighting.end + 2)]
    return ((use, sighting.end + 1),) if use is not None and again else ()


def _placed(words: Cues, at: int, low: int) -> bool:
    """ "put the old": the verb stands right before, or only "the", "that", "my" between."""
    return any(at - end <= 1 for _, end in words.between("fit", low, at))


def _finding(evidence: Evidence, sighting: Sighting, span: tuple[int, int], always: bool) -> Finding:
    speech = evidence.reading.speech
    begin, end = speech.span_times(*span)
    name = sighting.item or sighting.name
    how = "is made for one use" if always else "is for one use on many machines"
    fix = Fix(question=f"Was a new one fitted? If the manual allows {name} to be used again, say so.")
    return Finding(
        NAME,
        "query" if always else "note",
        begin,
        end,
        speech.said(*span),
        f"{name} {how}, and you say that it is used again.",
        f"a new {name}",
        name,
        "the old one was fitted again",
        fix,
    )
