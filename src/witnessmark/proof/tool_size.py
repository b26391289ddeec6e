"""A tool size said for a fastener whose row gives another.

*said*: the lug nuts on this one are a 19 · *found*: the table gives wheel nuts 21 mm.
Source: common practice (the manual's tool size).
"""

from collections.abc import Iterator

from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.proof.wording import bare, card, clock, number, row_place, row_value
from witnessmark.reading.model import Mention
from witnessmark.reading.sightings import fastener_places
from witnessmark.specs.table import SpecRow
from witnessmark.specs.tool_sizes import ToolSize, same_size

NAME = "tool-size"
# Tokens between sizes of one list, more where it is not clear what a size is of; tokens before a size in which its fastener is named.
LIST, LOOSE_LIST, NAMED = 4, 10, 14


def size_said(mention: Mention) -> ToolSize | None:
    """The size of a mention as tables give sizes; None where it is of a kind that tables do not give."""
    if mention.size is None:
        return None
    printed = (
        f"{number(mention.size.size)} {mention.size.system}"
        if mention.size.system in ("mm", "in")
        else f"{mention.size.system}{number(mention.size.size)}"
    )
    return ToolSize(mention.size.system, mention.size.size, None, printed)  # type: ignore[arg-type]


def check(evidence: Evidence) -> Iterator[Finding]:
    """Sizes whose fastener was named in the same breath."""
    texts = evidence.reading.speech.texts
    sizes = [mention.first for mention in evidence.mentions if mention.kind == "tool_size"]
    fasteners = fastener_places(evidence.reading.speech, evidence.reading.sightings)
    for mention in evidence.mentions:
        if (
            mention.kind != "tool_size"
            or mention.row is None
            or not (mention.clear or mention.sure)
            or mention.role != "stated"
        ):
            continue
        apart = LIST if mention.clear else LOOSE_LIST
        if any(0 < abs(other - mention.first) <= apart for other in sizes):
            continue  # tools laid out, not the size of one head
        after = mention.end + 6 if "on" in texts[mention.end : mention.end + 3] else mention.first
        if not any(mention.first - NAMED <= place < after for place in fasteners):
            continue
        said = size_said(mention)
        meant = [row for row in evidence.table.rows if row.item == mention.item or row.item in mention.rivals]
        if (
            said is None
            or not mention.row.tool_sizes
            or any(same_size(said, size) for row in meant for size in row.tool_sizes)
        ):
            continue
        yield _finding(mention, mention.row, said)


def _finding(mention: Mention, row: SpecRow, said: ToolSize) -> Finding:
    expected = " or ".join(size.printed for size in row.tool_sizes)
    message = f'At {clock(mention.start)} "{bare(mention.said)}" was said for the {row.item}; {row_place(row)} gives {expected}.'
    fix = card(f"Correction: {row.item} take {expected}", mention.start)
    return Finding(
        NAME, "query", mention.start, mention.origin.end, mention.said, message, expected, row.item,
        f"{said.printed} was said for {expected}", fix, row.origin, row_value(row), (mention.id,),
    )  # fmt: skip
