"""A measured part past its wear limit, which the speaker passes over.

*said*: these pads measure one millimetre · *found*: the table gives brake pads min 1.5 mm; worn past the limit.
Source: common practice (the manual's limit).
"""

from collections.abc import Iterator

from witnessmark.proof.check_words import clause, find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.tolerance import agrees
from witnessmark.proof.wording import amount_text, row_place, row_text, row_value
from witnessmark.quantity import Amount
from witnessmark.reading.model import Mention
from witnessmark.specs.table import SpecRow
from witnessmark.units import dimension

NAME = "worn"
BEFORE, AFTER = 12, 24  # tokens within which the speaker calls the part bad


def check(evidence: Evidence) -> Iterator[Finding]:
    """Measured values of items whose row is a minimum or a maximum, named in the same breath."""
    words = find_words(evidence.reading.speech.texts, "worn")
    for mention in evidence.mentions:
        row = mention.row
        if mention.role != "measured" or mention.amount is None or row is None or not mention.sure or mention.rivals:
            continue
        limit = _limit(row, mention.amount)
        if limit is None or agrees(mention.amount, limit):
            continue
        low, _ = clause(evidence.reading.speech, mention.first, mention.end, BEFORE, AFTER)
        # "one point one. That's had it": the verdict may come in the next sentence.
        if not words.has("bad", low, mention.end + AFTER):
            yield _finding(mention, row, mention.amount, limit)


def _limit(row: SpecRow, amount: Amount) -> Amount | None:
    bounds = (each for each in row.amounts if each.bound in ("min", "max"))
    return next((each for each in bounds if dimension(each.unit) == dimension(amount.unit)), None)


def _finding(mention: Mention, row: SpecRow, amount: Amount, limit: Amount) -> Finding:
    side = "below the minimum" if limit.bound == "min" else "above the maximum"
    measured = f"{amount_text(amount)} was measured of {row.item}, {side}"
    message = f"{measured}: worn past the limit; {row_place(row)} says {row_text(row)}."
    fix = Fix(question=f"Is {row.item} replaced later? If not, say that it has to be.")
    return Finding(
        NAME,
        "note",
        mention.start,
        mention.origin.end,
        mention.said,
        message,
        row_text(row),
        row.item,
        "the part is worn past the limit",
        fix,
        row.origin,
        row_value(row),
        (mention.id,),
    )
