"""A step done out of order, as the speaker says.

*said*: I should have cracked the lug nuts loose before I jacked it up · *found*: that step belongs earlier.
Source: common practice.
"""

from collections.abc import Iterator

from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix

NAME = "order"


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every remark on order that the procedure found."""
    for remark in evidence.procedure.order_remarks:
        step = f'"{remark.about}"' if remark.about else "the step"
        message = f"You say that a step was done out of order; {step} belongs earlier than it is shown."
        fix = Fix(
            question=f"Where does {step} belong? Cut in a line at that point, so that nobody follows the wrong order."
        )
        yield Finding(
            NAME,
            "query",
            remark.start,
            remark.end,
            remark.said,
            message,
            remark.about or None,
            None,
            "the step was forgotten and made up for later",
            fix,
        )
