"""A value said that is not the value of its row in the specification table.

*said*: bracket bolts get sixty foot pounds · *found*: the table says 22 N·m (16 lbf·ft); 60 and 16 sound alike.
Source: common practice (the manual's value is the value).
"""

from collections.abc import Iterator
from dataclasses import replace

from witnessmark.proof.causes import Cause, likely_cause, slip_of_size, trade_units
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Severity
from witnessmark.proof.tolerance import agrees
from witnessmark.proof.wording import amount_text, bare, clock, correction, row_place, row_text, row_value
from witnessmark.quantity import Amount
from witnessmark.reading.model import Mention
from witnessmark.specs.table import SpecRow
from witnessmark.units import convert, dimension

NAME = "value"
SLIPS_OF_TONGUE = frozenset({"unit", "teen-ty", "transposed", "decimal"})
PAST = frozenset({"was", "were", "had"})
# No slip is so large: what is so far off was said of something else about the thing.
OUT_OF_SCALE = 20


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every stated value against its row; a conversion is the restated-pair check's, a tool size the tool-size check's."""
    followed = {mention.staged_after for mention in evidence.mentions}
    for mention in evidence.mentions:
        if mention.row is None or mention.row.to_look_up or mention.restates or mention.kind == "tool_size":
            continue
        if mention.role != "stated" or mention.amount is None or not _told(mention):
            continue
        expected = expected_amounts(mention, mention.row, mention.id in followed)
        if not expected or any(_fits(mention, amount) for amount in expected):
            continue
        if mention.kind == "torque" or not _out_of_scale(mention.amount, expected[0]):
            yield _finding(evidence, mention, mention.row, expected[0])


def _told(mention: Mention) -> bool:
    """Torques are told of whatever is in hand; any other value counts only where its item is clear, and named or told as what it should be."""
    if mention.kind == "torque":
        return True
    if mention.kind == "interval":
        return mention.sure and mention.clear and mention.specified
    return not mention.rivals and (mention.sure, mention.clear, mention.specified).count(True) > 1


def expected_amounts(mention: Mention, row: SpecRow, followed: bool) -> list[Amount]:
    """The amounts of a row that one mention may be: its own stage in a sequence, any of them where it stands alone."""
    assert mention.amount is not None
    what = dimension(mention.amount.unit)
    stages = [amount for amount in row.amounts if dimension(amount.unit) == what]
    if (mention.staged_after or followed) and len(row.amounts) > 1 and mention.stage < len(row.amounts):
        own = row.amounts[mention.stage]
        return [own] if dimension(own.unit) == what else []
    return [*stages, *(amount for amount in row.alternatives if dimension(amount.unit) == what)]


def _out_of_scale(said: Amount, meant: Amount) -> bool:
    """Whether an amount is of another order than the one specified, and no unit or decimal point explains it."""
    small, large = sorted((abs(convert(said.low, said.unit, meant.unit)), abs(meant.low)))
    return large > OUT_OF_SCALE * small and not slip_of_size(said, meant)


def _fits(mention: Mention, amount: Amount) -> bool:
    assert mention.amount is not None and mention.whole is not None
    if any(agrees(replace(mention.amount, unit=unit), amount) for unit in _units(mention, amount)):
        return True
    ends = amount.low != amount.high and mention.whole.low != mention.whole.high
    return ends and agrees(mention.whole, amount) and mention.amount.low in (mention.whole.low, mention.whole.high)


def _units(mention: Mention, amount: Amount) -> tuple[str, ...]:
    """The units that a figure may be in: those that the words may mean; where none was said, also the row's own and the trade's."""
    assert mention.amount is not None
    if not mention.inferred:
        return mention.units or (mention.amount.unit,)
    trade = () if mention.kind == "torque" else trade_units().get(dimension(amount.unit), ())
    return (mention.amount.unit, amount.unit, *trade)


def _fits_another(evidence: Evidence, mention: Mention) -> bool:
    """Whether the value is right for another item that may have been meant: a rival, or any where the item is not sure."""
    assert mention.amount is not None
    unit = dimension(mention.amount.unit)
    return any(
        _fits(mention, amount)
        for row in evidence.table.rows
        if row is not mention.row and row.kind == mention.kind
        if row.item in mention.rivals or not mention.sure
        for amount in row.amounts
        if dimension(amount.unit) == unit
    )


def _finding(evidence: Evidence, mention: Mention, row: SpecRow, amount: Amount) -> Finding:
    assert mention.amount is not None
    cause = likely_cause(mention.amount, row, amount, evidence.table.rows)
    said, want = amount_text(mention.amount), row_text(row)
    doubt = f" (or of {' or '.join(mention.rivals)})" if mention.rivals else ""
    taken = f", taken as {said}," if mention.inferred else ""
    message = (
        f'At {clock(mention.start)} "{bare(mention.said)}"{taken} was said of the {row.item}{doubt}; '
        f"{row_place(row)} says {want}."
    )
    told_of_before = (
        evidence.reading.speech.texts[mention.first - 1] in PAST
    )  # "wear on the old ones was two point six"
    level = severity(mention, _fits_another(evidence, mention), cause, told_of_before)
    fix = correction(mention, row, amount_text(Amount(amount.low, amount.high, amount.unit, amount.bound)))
    return Finding(
        NAME, level, mention.start, mention.origin.end, mention.said,
        message, want, row.item, cause.text, fix, row.origin, row_value(row), (mention.id,),
    )  # fmt: skip


def severity(mention: Mention, right_for_another: bool, cause: Cause, told_of_before: bool = False) -> Severity:
    """How much a value that differs from its row weighs: what the cause tells, and how surely the item is meant.

    A torque that no other row of the table has is a hold where a slip of the tongue explains it (a unit, teen and ty, turned digits, a decimal
    point) or its item is told. Where it is right for another item that may have been meant, a person should look. Where several items were named
    in one breath and it is right for one of them, or the item is hardly told, it is a note.
    """
    if mention.faint:
        return "note"
    if mention.kind != "torque":
        return "query" if right_for_another else _of_no_torque(mention, cause)
    if mention.inferred:
        return _of_bare(mention, cause, told_of_before)
    if cause.name == "other-row" or right_for_another:
        return _of_another(mention)
    told = mention.sure or mention.clear or mention.specified
    return "hold" if told or cause.name in SLIPS_OF_TONGUE else "query"


def _of_no_torque(mention: Mention, cause: Cause) -> Severity:
    """A value of another kind: a hold where its item was named just now and nothing else comes near, or it is plainly a slip."""
    if mention.inferred or mention.kind == "interval" or not mention.clear:
        return "query"
    if mention.clear and cause.name in SLIPS_OF_TONGUE - {"unit"}:
        return "hold"
    alone = mention.clear and cause.name not in ("unit", "other-row")
    return "hold" if mention.sure and (mention.specified or alone) else "query"


def _of_bare(mention: Mention, cause: Cause, told_of_before: bool) -> Severity:
    """A torque said without its unit: a hold only where its item is sure and no other row has it."""
    if mention.tool_sized:
        return "query" if mention.specified else "note"
    named = mention.sure and mention.clear
    alone = mention.whole == mention.amount and cause.name not in ("unit", "other-row")
    if named and alone and not told_of_before:
        return "hold"
    return "query" if named or cause.name in SLIPS_OF_TONGUE else "note"


def _of_another(mention: Mention) -> Severity:
    """A torque that is right for another item."""
    if mention.clear:
        return "hold" if mention.sure else "query"
    return "note" if mention.sure and not mention.specified else "query"
