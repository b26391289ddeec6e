"""Values as readers see them, each with the caption time or the table row that stands behind it."""

from dataclasses import dataclass
from typing import Literal

from witnessmark.house_style import shown
from witnessmark.proof.decisions import FILE as DECISIONS
from witnessmark.proof.tolerance import agrees
from witnessmark.publication.escape import printable
from witnessmark.quantity import Value
from witnessmark.reading.model import Mention
from witnessmark.specs.table import SpecRow
from witnessmark.units import dimension

State = Literal["checked", "differs", "measured", "decided", "unchecked"]


@dataclass(frozen=True, slots=True)
class Stated:
    """A value of the job. value: the manual's, or where no row is what was said.

    state: how the two compare; "measured" where the video tells what it found and not what is meant; "decided" where the creator decided that it stays as said.
    """

    item: str | None
    kind: str
    value: Value
    said: Value
    state: State
    source: str | None


def shown_value(value: Value) -> str:
    """A value as it is printed, in both unit systems. Raises TypeError for anything but a Value."""
    if not isinstance(value, Value):
        raise TypeError(f"only a Value may be shown, not {type(value).__name__}: it has no time or row behind it")
    return printable(shown(value.amounts) if value.amounts else value.grade or value.printed)


def value_said(mention: Mention) -> Value:
    """What the captions say, with their time."""
    if mention.size is not None or mention.whole is None:
        return Value((), mention.grade or mention.said, mention.said, mention.origin)
    amounts = (mention.whole,) if mention.whole.unit else ()
    return Value(amounts, None if amounts else mention.said, mention.said, mention.origin)


def value_specified(row: SpecRow) -> Value | None:
    """What the table says, with its row; None where the row is still to be looked up."""
    if row.to_look_up:
        return None
    return Value(row.amounts, row.grade, row.printed, row.origin)


def stated(mention: Mention) -> Stated:
    """A mention beside its row."""
    said = value_said(mention)
    row = mention.row
    specified = value_specified(row) if row is not None and mention.kind != "tool_size" else None
    if row is None or specified is None:
        return Stated(mention.item, mention.kind, said, said, "unchecked", None)
    if mention.role == "measured":
        return Stated(row.item, mention.kind, specified, said, "measured", row.origin.source or row.origin.file)
    state: State = "differs" if not fits(mention, row) else "decided" if row.origin.file == DECISIONS else "checked"
    return Stated(row.item, mention.kind, specified, said, state, row.origin.source or row.origin.file)


def fits(mention: Mention, row: SpecRow) -> bool:
    """Whether what is said is what the row has, as people round: one of its stages, or its grade."""
    if mention.grade is not None:
        return row.grade is not None and _letters(mention.grade) == _letters(row.grade)
    said = [amount for amount in (mention.amount, mention.whole) if amount is not None and amount.unit]
    meant = (*row.amounts, *row.alternatives)
    alike = [(one, other) for one in said for other in meant if dimension(one.unit) == dimension(other.unit)]
    return any(agrees(one, other) for one, other in alike)


def _letters(grade: str) -> str:
    return "".join(character for character in grade.casefold() if character.isalnum())
