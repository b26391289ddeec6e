"""Values as the creator decided them: what is kept as said, or another value that counts, stands where the manual's stood."""

from collections.abc import Sequence
from dataclasses import replace

from witnessmark.house_style import shown
from witnessmark.proof.decisions import FILE
from witnessmark.proof.model import Finding
from witnessmark.quantity import Amount, TableRow
from witnessmark.reading.model import Mention, Reading
from witnessmark.specs.printed import read_printed
from witnessmark.specs.properties import rule_for
from witnessmark.specs.table import SpecRow
from witnessmark.specs.written import Unreadable

OF_ONE_VALUE = frozenset({"value", "grade", "past-strength"})  # checks whose finding is about one value


def ruled(reading: Reading, findings: Sequence[Finding]) -> Reading:
    """The reading with the rows that the creator's decisions put in the table's place.

    Such a row cites its number in decisions.toml, the reason and what the manual says instead.
    """
    decided = {
        mention: finding
        for finding in findings
        if finding.ruling is not None and finding.check in OF_ONE_VALUE
        for mention in finding.mentions
    }
    if not decided:
        return reading
    mentions = tuple(_ruled(each, decided[each.id]) if each.id in decided else each for each in reading.mentions)
    return replace(reading, mentions=mentions)


def _ruled(mention: Mention, finding: Finding) -> Mention:
    """One mention with the row that its decision makes; as it was where none can be made."""
    ruling = finding.ruling
    mention = replace(mention, right_elsewhere=False)
    if ruling is None or ruling.kind == "manual" or (ruling.kind != "value" and mention.row is None):
        return mention
    amounts, grade = _value(mention, ruling.value) if ruling.kind == "value" else _said(mention)
    if not amounts and grade is None:
        return mention
    origin = TableRow(FILE, ruling.number, _source(mention, ruling.kind, ruling.reason))
    printed = ruling.value or grade or mention.said
    if mention.row is not None:
        row = replace(mention.row, origin=origin, printed=printed, amounts=amounts, grade=grade, to_look_up=False)
    else:
        row = SpecRow(origin, mention.item or mention.said, (), mention.kind, rule_for(mention.kind), printed, amounts)
    return replace(mention, row=row, sure=True, faint=False, rivals=(), stage=0, untouched=False)


def _said(mention: Mention) -> tuple[tuple[Amount, ...], str | None]:
    """What the captions say, as a row has it."""
    amount = mention.whole or mention.amount
    return ((amount,) if amount is not None and amount.unit else ()), mention.grade


def _value(mention: Mention, value: str) -> tuple[tuple[Amount, ...], str | None]:
    """The value that counts instead, as a row has it; nothing where it is no value of this kind."""
    if mention.grade is not None:
        return (), value
    try:
        return read_printed(value, rule_for(mention.row.property if mention.row else mention.kind)).amounts, None
    except Unreadable:
        return (), None


def _source(mention: Mention, kind: str, reason: str) -> str:
    """What stands behind the row, for a reader."""
    row = mention.row
    manual = ""
    if row is not None and not row.to_look_up:
        manual = f"; {row.origin.source or row.origin.file} says {shown(row.amounts) if row.amounts else row.printed}"
    said = "the author's value" if kind == "value" else "kept as said"
    return f"{said}{f': {reason}' if reason else ''}{manual}"
