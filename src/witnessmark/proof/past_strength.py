"""A torque that no common bolt of the size said can take.

*said*: the 10 mm bolts get ninety foot pounds · *found*: no common bolt with a 10 mm head takes 122 N·m; in lbf·in it would be usual.
Source: the torque-tension relation (VDI 2230, ISO 16047), strengths by ISO 898-1 and SAE J429, heads by data/fasteners/heads.csv.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from witnessmark.language.cues import Cues
from witnessmark.proof.check_words import find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix, Severity
from witnessmark.proof.traits import traits_of
from witnessmark.proof.wording import amount_text
from witnessmark.quantity import Amount
from witnessmark.reading.model import Mention
from witnessmark.specs.bolt_report import printed
from witnessmark.specs.heads import Drive, HeadUse, threads_of
from witnessmark.specs.table import SpecRow
from witnessmark.specs.threads import thread
from witnessmark.specs.tightening import (
    TorqueLimit,
    in_newton_metres,
    least_torque,
    most_torque,
    other_unit,
    usual_range,
)

NAME = "past-strength"
BEFORE, AFTER = 25, 10  # tokens around a torque within which a size is of the same fastener
TOOL = 4  # tokens around a size that tell what the tool takes hold of
_SYSTEMS = {"TP": "T", "JIS": "PH"}
_DRIVES: dict[str | None, Drive] = {"hex": "hex head", "key": "key"}


@dataclass(frozen=True, slots=True)
class Bolt:
    """What a fastener may be. uses: every thread with such a head. named: how a person would say it."""

    uses: tuple[HeadUse, ...]
    named: str


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every torque told as what to do, unless the table bears it out. Said again in another unit it counts once."""
    words = find_words(evidence.reading.speech.texts, "sizes")
    flagged: set[str] = set()
    for mention in evidence.mentions:
        if (
            mention.kind != "torque"
            or mention.role != "stated"
            or mention.amount is None
            or mention.restates in flagged
        ):
            continue
        if _has_torque(mention.row):
            continue  # the table knows better what this bolt takes, and the value check compares with it
        finding = _judge(mention, mention.amount, _bolts(evidence, words, mention))
        if finding is not None:
            flagged.add(mention.id)
            yield finding


def _has_torque(row: SpecRow | None) -> bool:
    return row is not None and not row.to_look_up and bool(row.amounts)


def _bolts(evidence: Evidence, words: Cues, mention: Mention) -> list[Bolt]:
    """All that the fastener may be: its thread in the table, else every size said for it, else the table's own size."""
    rows = evidence.table.rows_of(mention.item) if mention.item else ()
    threads = [row.thread for row in rows if row.thread]
    if threads:
        return _of_thread(threads[0])
    said = [bolt for size in _sizes(evidence, mention) if (bolt := _of_size(words, size))]
    if said or _has_torque(mention.row):
        return said
    return [
        bolt
        for row in rows
        for size in row.tool_sizes
        if (bolt := _bolt(size.system, size.size, _DRIVES.get(size.drive)))
    ]


def _of_thread(name: str) -> list[Bolt]:
    try:
        return [Bolt((HeadUse(thread(name), "any", "as given", "as given"),), name)]
    except ValueError:  # a cycle or pipe thread, which no table of bolts has
        return []


def _sizes(evidence: Evidence, mention: Mention) -> list[Mention]:
    """Sizes said of the same item anywhere, else the nearest one where no other torque or fastener comes between."""
    sizes = [each for each in evidence.mentions if each.kind == "tool_size" and each.role == "stated" and each.size]
    own = [each for each in sizes if mention.item and each.item == mention.item and (each.sure or _near(each, mention))]
    if own:
        return own
    others = [each for each in sizes if _near(each, mention) and _alone(evidence, each, mention)]
    return sorted(others, key=lambda each: abs(each.first - mention.first))[:1]


def _near(size: Mention, torque: Mention) -> bool:
    return torque.first - BEFORE <= size.first < torque.first or torque.end <= size.first <= torque.end + AFTER


def _alone(evidence: Evidence, size: Mention, torque: Mention) -> bool:
    """Whether one fastener at most is named around both, and no torque between them."""
    if torque.row is not None and size.row is not None and torque.item != size.item:
        return False
    low, high = min(size.first, torque.first), max(size.end, torque.end)
    between = [m for m in evidence.mentions if m.kind in ("torque", "tool_size") and low < m.first < high]
    near = [
        s for s in evidence.reading.sightings if low - TOOL <= s.start <= high + TOOL and s.kind in ("fastener", "part")
    ]
    fasteners = {s.item or s.name for s in near if s.kind == "fastener"}
    return all(each in (size, torque) for each in between) and len(fasteners) <= 1


def _of_size(words: Cues, mention: Mention) -> Bolt | None:
    assert mention.size is not None
    low, high = mention.first - TOOL, mention.end + TOOL
    if words.has("twelve_point", low, high):
        return _bolt(mention.size.system, mention.size.size, None)
    key, hexagon = words.has("key", low, high), words.has("hexagon", low, high)
    drive: Drive | None = None if key == hexagon else "key" if key else "hex head"
    return _bolt(mention.size.system, mention.size.size, drive)


def _bolt(system: str, number: Decimal, drive: Drive | None) -> Bolt | None:
    uses = threads_of(_SYSTEMS.get(system, system), number, drive)
    shape = {"hex head": "head", "key": "key"}.get(drive or "", "head or key")
    named = f"{number:f} {system} {shape}" if system in ("mm", "in") else f"{system}{number:f}"
    return Bolt(uses, named) if uses else None


def _judge(mention: Mention, amount: Amount, bolts: Sequence[Bolt]) -> Finding | None:
    """Past the strongest thing it may be: hold. Far under the weakest, of a joint that must hold and has no row: query."""
    uses = tuple(use for bolt in bolts for use in bolt.uses)
    most, least, usual = most_torque(uses), least_torque(uses), usual_range(uses)
    if most is None or usual is None:
        return None
    try:
        torque = in_newton_metres(float(amount.low), amount.unit)
        readings = [each.unit for each in other_unit(float(amount.low), amount.unit, usual)]
    except ValueError:
        return None
    if torque > most.torque:
        return _finding(mention, amount, bolts, most, readings)
    must_hold = mention.item is not None and "critical:yes" in traits_of(mention.item)
    if (
        least is not None
        and torque < least.torque
        and must_hold
        and not _has_torque(mention.row)
        and not mention.staged_after
    ):
        return _weak(mention, amount, bolts, least, readings)
    return None


def _finding(
    mention: Mention, amount: Amount, bolts: Sequence[Bolt], most: TorqueLimit, readings: Sequence[str]
) -> Finding:
    strongest = f"{most.thread.name} of {'class ' if most.thread.system == 'metric' else ''}{most.grade}"
    message = (
        f'"{mention.said}" ({printed(in_newton_metres(float(amount.low), amount.unit))} N·m) is more than any common bolt with a '
        f"{bolts[0].named} takes: {strongest} yields at {printed(most.torque)} N·m even at a friction of {most.friction:.2f}."
    )
    return _told(mention, amount, message, f"at most {printed(most.torque)} N·m", "hold", readings)


def _weak(
    mention: Mention, amount: Amount, bolts: Sequence[Bolt], least: TorqueLimit, readings: Sequence[str]
) -> Finding:
    message = (
        f'"{mention.said}" is far under what holds a joint with a {bolts[0].named}, and {mention.item} has to hold.'
    )
    return _told(mention, amount, message, f"at least {printed(least.torque)} N·m", "query", readings)


def _told(
    mention: Mention, amount: Amount, message: str, expected: str, severity: Severity, readings: Sequence[str]
) -> Finding:
    units = " or ".join(readings)
    cause = (
        f"{amount.low:f} would be usual in {units}: the unit was said wrong"
        if units
        else "the figure or the size was said wrong"
    )
    fix = Fix(
        question=f"What does the manual give? {amount_text(amount)} or {amount.low:f} {units}?"
        if units
        else "What does the manual give?"
    )
    return Finding(
        NAME, severity, mention.start, mention.origin.end, mention.said, message, expected,
        mention.item, cause, fix, mentions=(mention.id,),
    )  # fmt: skip
