"""Torques of which the value itself tells that another fastener may have been meant.

What a value is said of is decided by words alone. This looks at the value afterwards, and only to warn: where it is wrong
for its own row and right for another one, either the speaker slipped or the other fastener was meant. The creator gets the
finding; a reader of the guide is told to look the torque up.
"""

from dataclasses import replace

from witnessmark.proof.tolerance import agrees
from witnessmark.reading.model import Mention, Reading
from witnessmark.specs.table import SpecTable


def doubted(reading: Reading, table: SpecTable) -> Reading:
    """The reading with such torques marked."""
    mentions = tuple(replace(m, right_elsewhere=True) if _is_right_elsewhere(m, table) else m for m in reading.mentions)
    return replace(reading, mentions=mentions)


def _is_right_elsewhere(mention: Mention, table: SpecTable) -> bool:
    if mention.kind != "torque" or mention.amount is None or mention.row is None or mention.role != "stated":
        return False
    said = mention.amount
    fits = {row.item for row in table.rows if any(agrees(said, each) for each in (*row.amounts, *row.alternatives))}
    return bool(mention.row.amounts) and bool(fits) and mention.row.item not in fits
