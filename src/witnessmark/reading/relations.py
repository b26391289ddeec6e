"""Values that belong together: one said again in another unit, stages of one tightening."""

from collections.abc import Sequence
from dataclasses import replace

from witnessmark.language.tokens import SENTENCE_END
from witnessmark.reading.figures import Talk, stands_between
from witnessmark.reading.model import Mention
from witnessmark.units import dimension

RESTATED_REACH = 28  # tokens
STAGE_REACH = 12
JOINING = frozenset(
    {
        "(",
        ",",
        ".",
        "or",
        "that",
        "'s",
        "which",
        "is",
        "so",
        "about",
        "=",
        "that's",
        "call",
        "it",
        "roughly",
        "around",
        "on",
        "for",
        "those",
        "these",
        "them",
        "each",
        "both",
        "bolt",
        "bolts",
        "nut",
        "nuts",
    }
)
CLOSE_GAP = 10
NAMED_AT_ONCE = 4  # tokens after a value in which its own item may be named: "76 on the lugs, that's 103"


def link_restated(talk: Talk, mentions: Sequence[Mention], things: Sequence[int]) -> list[Mention]:
    """ "ten foot pounds, that's a hundred and twenty inch pounds": the second says the first again; `share_items` tells of what."""
    linked = []
    last: dict[str, Mention] = {}  # kind -> the last mention with an amount
    for mention in mentions:
        one, earlier = mention, last.get(mention.kind)
        if earlier is not None and _may_restate(talk, mention) and _restates(talk, earlier, mention, things):
            one = replace(mention, restates=earlier.restates or earlier.id, role=earlier.role)
        if one.amount is not None:
            last[one.kind] = one
        linked.append(one)
    return linked


def _may_restate(talk: Talk, mention: Mention) -> bool:
    """A bare figure says another one again only where its unit is hinted at: "88 if yours reads American"."""
    if mention.amount is None or mention.kind in ("tool_size", "count"):
        return False
    hinted = mention.kind == "torque" and talk.bare_cues.has("other_unit", mention.first - 8, mention.end + 8)
    return hinted or not mention.inferred


def _restates(talk: Talk, earlier: Mention, later: Mention, things: Sequence[int]) -> bool:
    assert earlier.amount is not None and later.amount is not None
    if earlier.amount.unit == later.amount.unit or dimension(earlier.amount.unit) != dimension(later.amount.unit):
        return False
    if earlier.kind in ("torque",) and "°" in (earlier.amount.unit, later.amount.unit):
        return False
    return earlier.role != "retracted" and said_again(talk, earlier.end, later.first, later.end, things)


def said_again(talk: Talk, end: int, first: int, stop: int, things: Sequence[int]) -> bool:
    """Whether a figure in another unit, tokens first..stop, says again the one that ended at `end`: no other thing is named between or after."""
    gap = first - end
    if gap > RESTATED_REACH or stands_between(things, end + NAMED_AT_ONCE, first):
        return False
    if talk.text(stop) in ("on", "for") and stands_between(things, stop, stop + 3):
        return False
    if all(word in JOINING for word in talk.texts[end:first]):
        return True
    if gap <= CLOSE_GAP and talk.text(end) == "which" and talk.text(first - 1) in ("is", "'s", "as", "about"):
        return True  # "which the lad says is 75 newton meters"
    sentences = sum(word in SENTENCE_END for word in talk.texts[end:first])
    if gap <= CLOSE_GAP and not sentences and talk.cues.has("restates_after", stop, stop + 4):
        return True
    cues = talk.cues.between("restates", end, first)
    return (any(first - close <= 3 for _, close in cues) and sentences <= 1) or (
        any((start - end <= 3 and gap <= CLOSE_GAP) or first - close <= 6 for start, close in cues) and not sentences
    )


def link_stages(talk: Talk, mentions: Sequence[Mention]) -> list[Mention]:
    """ "thirty, then sixty, then ninety degrees": each stage follows the one before, with nothing between but words that chain."""
    linked = []
    before: Mention | None = None  # the last torque, angle or count that says nothing again
    for mention in mentions:
        one = mention
        if before is not None and _follows(talk, before, mention):
            one = replace(
                mention,
                stage=before.stage + 1,
                staged_after=before.id,
                item=before.item,
                row=before.row,
                rivals=before.rivals,
                sure=before.sure,
            )
        if one.kind in ("torque", "angle", "count") and not one.restates:
            before = one
        linked.append(one)
    return linked


def _follows(talk: Talk, before: Mention, mention: Mention) -> bool:
    staged = mention.kind in ("torque", "angle") and not mention.restates
    return staged and before.kind != "count" and before.role == "stated" and _chained(talk, before, mention)


def share_items(mentions: Sequence[Mention]) -> list[Mention]:
    """A value said again is about what the first saying is about, once stages are known."""
    by_id = {mention.id: mention for mention in mentions}
    firsts = [(mention, by_id.get(mention.restates or "")) for mention in mentions]
    return [
        replace(
            mention,
            item=first.item,
            row=first.row,
            rivals=first.rivals,
            sure=first.sure,
            clear=first.clear,
            faint=first.faint,
            untouched=first.untouched,
            stage=first.stage,
        )
        if first
        else mention
        for mention, first in firsts
    ]


def _chained(talk: Talk, before: Mention, after: Mention) -> bool:
    between = talk.texts[before.end : after.first]
    if not between or len(between) > STAGE_REACH:
        return False
    chains = talk.cues.between("chain", before.end, after.first)
    covered = {i for start, end in chains for i in range(start, end)}
    fillers = {
        i for i in range(before.end, after.first) if talk.text(i) in ("uh", "um", ".", "it", "'s", "you", "we", "i")
    }
    said_then = (
        any(
            word in ("then", "plus", "+", "followed", "another", "additional", "further", "turn", "after")
            for word in between
        )
        or after.kind == "angle"
    )
    return said_then and len(covered | fillers) == len(between)
