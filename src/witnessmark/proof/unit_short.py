"""The unit of a torque said short, which a viewer may take for another.

*said*: thirty pounds on those · *found*: 30 lbf·ft; "pounds" alone may be heard as inch-pounds.
Source: common practice.
"""

from collections.abc import Iterator

from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.wording import amount_text

NAME = "unit-short"


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every torque that is told as what to do."""
    for mention in evidence.mentions:
        if mention.kind != "torque" or not mention.short or mention.role != "stated" or mention.amount is None:
            continue
        full = amount_text(mention.amount)
        yield Finding(
            NAME,
            "note",
            mention.start,
            mention.origin.end,
            mention.said,
            f'"{mention.said}" says the unit short; it was read as {full}.',
            full,
            mention.item,
            "people say the unit short",
            Fix(caption=full),
            mentions=(mention.id,),
        )
