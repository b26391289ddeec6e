"""Two tool sizes said for the head of one fastener, and no row to say which is right.

*said*: the cover screws are an eight … eleven mil on the cover screws · *found*: 8 mm and 11 mm were both said of them.
Source: common practice.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.language.cues import Cues
from witnessmark.proof.check_words import clause, find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.tool_size import size_said
from witnessmark.proof.wording import clock
from witnessmark.reading.model import Mention
from witnessmark.specs.tool_sizes import ToolSize, same_size

NAME = "two-sizes"
NAMED_BEFORE, NAMED_AFTER = 6, 6  # tokens around a size in which the one fastener it is of is named
AROUND = 10


@dataclass(frozen=True, slots=True)
class _Said:
    """A size said of a fastener. inside: it fits an internal hexagon."""

    mention: Mention
    size: ToolSize
    item: str
    inside: bool


def check(evidence: Evidence) -> Iterator[Finding]:
    """Sizes of fasteners named in two words or more right beside them; nut and stud may differ, head and key too."""
    words = find_words(evidence.reading.speech.texts, "sizes")
    first_of: dict[tuple[str, bool], _Said] = {}
    for mention in evidence.mentions:
        said = _said(evidence, words, mention)
        if said is None:
            continue
        first = first_of.setdefault((said.item, said.inside), said)
        if first.size.system == said.size.system and not same_size(first.size, said.size):
            yield _finding(first, said)


def _said(evidence: Evidence, words: Cues, mention: Mention) -> _Said | None:
    if mention.kind != "tool_size" or mention.role != "stated":
        return None
    size, item = size_said(mention), _fastener(evidence, mention)
    if size is None or item is None or any(row.tool_sizes for row in evidence.table.rows_of(item)):
        return None
    low, high = clause(evidence.reading.speech, mention.first, mention.end, AROUND, AROUND)
    name = set(item.split())
    others = [
        span
        for span in words.between("other_part", low, high)
        if not name & set(evidence.reading.speech.lemmas[span[0] : span[1]])
    ]
    return None if others else _Said(mention, size, item, words.has("key", low, high))


def _fastener(evidence: Evidence, mention: Mention) -> str | None:
    """The only fastener named right beside a size, by two words or more."""
    low, high = clause(evidence.reading.speech, mention.first, mention.end, NAMED_BEFORE, NAMED_AFTER)
    named = {
        s.item or s.name
        for s in evidence.reading.sightings
        if s.kind == "fastener" and low <= s.start and s.end <= high
    }
    item = next(iter(named)) if len(named) == 1 else None
    return item if item and " " in item else None


def _finding(first: _Said, second: _Said) -> Finding:
    mention = second.mention
    message = (
        f"{first.size.printed} ({clock(first.mention.start)}) and {second.size.printed} ({clock(mention.start)}) were "
        f"both said for {second.item}, and the table gives no size for it."
    )
    fix = Fix(question=f"Which of the two fits {second.item}? Add it to the table.")
    return Finding(
        NAME,
        "query",
        mention.start,
        mention.origin.end,
        mention.said,
        message,
        first.size.printed,
        second.item,
        "one of the two was misspoken",
        fix,
        mentions=(first.mention.id, mention.id),
    )
