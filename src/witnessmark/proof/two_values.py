"""One item, two values in one recording, and no row to say which is right.

*said*: the cap nuts get nine … and then nine became nineteen on the cap nuts · *found*: 9 and 19 were both said of the cap nuts.
Source: common practice.
"""

from collections.abc import Iterator

from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.tolerance import pair_agrees
from witnessmark.proof.wording import amount_text, clock
from witnessmark.reading.model import Mention

NAME = "two-values"


def check(evidence: Evidence) -> Iterator[Finding]:
    """Torques of items named in two words or more; with a row, the value check says which is wrong."""
    first_of: dict[str, Mention] = {}
    for mention in evidence.mentions:
        has_row = mention.row is not None and not mention.row.to_look_up
        if mention.kind != "torque" or mention.role != "stated" or mention.restates or mention.staged_after or has_row:
            continue
        if mention.item is None or " " not in mention.item or mention.amount is None:
            continue
        first = first_of.setdefault(mention.item, mention)
        assert first.amount is not None
        if first is not mention and not pair_agrees(first.amount, mention.amount):
            message = (
                f"{amount_text(first.amount)} ({clock(first.start)}) and {amount_text(mention.amount)} ({clock(mention.start)}) "
                f"were both said of {mention.item}, and the table has no value for it."
            )
            fix = Fix(question=f"Which of the two is right for {mention.item}? Look it up and write it into the table.")
            yield Finding(
                NAME, "query", mention.start, mention.origin.end, mention.said, message, amount_text(first.amount), mention.item,
                "one of the two was misspoken", fix, mentions=(first.id, mention.id),
            )  # fmt: skip
