"""A value said in two units that do not agree.

*said*: 32 foot pounds, which is 54 newton metres · *found*: 32 lbf·ft is 43 N·m; 10 lbf·ft and 120 lbf·in agree, 10 N·m and 120 lbf·in do not.
Source: unit definitions, as tabulated in NIST SP 811, appendix B.
"""

from collections.abc import Iterator

from witnessmark.proof.causes import likely_cause
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.proof.tolerance import agrees, pair_agrees
from witnessmark.proof.value_against_row import expected_amounts
from witnessmark.proof.wording import amount_text, bare, card, clock, correction, row_place, row_text, row_value
from witnessmark.reading.model import Mention
from witnessmark.units import convert, rounded_to

NAME = "restated-pair"


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every value said again in another unit; the one that its row does not bear out is the one to correct."""
    for mention in evidence.mentions:
        first = evidence.by_id.get(mention.restates or "")
        if first is None or first.amount is None or mention.amount is None or mention.role == "other_machine":
            continue
        if mention.whole != mention.amount or first.whole != first.amount:
            continue  # ranges are rounded more freely, and each end is checked against the row
        if not pair_agrees(first.amount, mention.amount):
            yield _finding(first, mention)


def _finding(first: Mention, second: Mention) -> Finding:
    assert first.amount is not None and second.amount is not None
    places = min(0, int(second.amount.low.as_tuple().exponent))
    there = rounded_to(convert(first.amount.low, first.amount.unit, second.amount.unit), places)
    row = second.row if second.row is not None and second.row.amounts else None
    message = (
        f'At {clock(second.start)} "{bare(first.said)}" and "{bare(second.said)}" were said of one thing, '
        f"but {amount_text(first.amount)} is about {there} {second.amount.unit}"
    )
    if row is None:
        expected, fix, cause = (
            f"{there} {second.amount.unit}",
            card(f"Correction: {amount_text(first.amount)} ({there} {second.amount.unit})", second.start),
            None,
        )
        message += "."
    else:
        wrong = second if any(agrees(first.amount, amount) for amount in expected_amounts(first, row, False)) else first
        assert wrong.amount is not None
        expected, fix = row_text(row), correction(wrong, row, row_text(row))
        cause = likely_cause(wrong.amount, row, row.amounts[0], ()).text
        message += f"; {row_place(row)} says {expected}."
    return Finding(
        NAME, "hold" if second.kind == "torque" else "query", second.start, second.origin.end, second.said, message, expected, second.item, cause, fix,
        row.origin if row else None, row_value(row) if row else None, (first.id, second.id),
    )  # fmt: skip
