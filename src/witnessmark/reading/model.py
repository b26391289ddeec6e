"""What reading a recording gives."""

from dataclasses import dataclass
from decimal import Decimal

from witnessmark.language.speech import Speech
from witnessmark.quantity import Amount, CaptionSpan
from witnessmark.reading.roles import Role
from witnessmark.reading.sightings import Sighting
from witnessmark.reading.sizes import SizeSaid
from witnessmark.specs.table import SpecRow


@dataclass(frozen=True, slots=True)
class Mention:
    """One value as it was said.

    first, end: tokens, end exclusive. kind: a kind of facts.json. amount: the figure itself, None for a grade. whole: the range of
    which it is one end, else the amount again. inferred: the unit was not said with it.
    short: the unit was said short ("pounds"). item: a name of the table, else the words said, None where nothing is named. row: the specification
    that the value is about. rivals: items that are as likely as `item`. restates: id of the mention that this one says again in another unit.
    stage: place in a sequence such as "30, then 60, then 90 degrees", from 0. sure: the item was named in the same breath.
    clear: no other item comes near. faint: the item is hardly more than a guess. specified: told as what it should be. untouched: of a thing left alone.
    right_elsewhere: wrong for its row and right for another (proof.doubt), so that a reader is told to look it up.
    units: every unit that the words may mean ("degrees", "quarts").
    """

    id: str
    kind: str
    first: int
    end: int
    origin: CaptionSpan
    amount: Amount | None
    whole: Amount | None
    grade: str | None
    size: SizeSaid | None
    role: Role
    inferred: bool
    short: bool
    item: str | None = None
    row: SpecRow | None = None
    rivals: tuple[str, ...] = ()
    restates: str | None = None
    stage: int = 0
    staged_after: str | None = None
    sure: bool = False
    clear: bool = False
    faint: bool = False
    specified: bool = False
    untouched: bool = False
    units: tuple[str, ...] = ()
    right_elsewhere: bool = False

    @property
    def certain(self) -> bool:
        """Whether it is clear enough which item is meant to print the item's value for a reader to follow."""
        told = self.specified or not self.tool_sized
        return (
            told
            and not self.right_elsewhere
            and not self.rivals
            and not self.faint
            and not self.untouched
            and (self.sure or self.clear)
        )

    @property
    def tool_sized(self) -> bool:
        """Whether a bare torque is the size of the very tool that its row names: it was hardly meant as the torque.

        Asked once all is attributed; nothing is attributed by it.
        """
        sizes = {each.size for each in self.row.tool_sizes} if self.row is not None else set()
        return self.kind == "torque" and self.inferred and self.figure in sizes

    @property
    def start(self) -> float:
        """Seconds."""
        return self.origin.start

    @property
    def said(self) -> str:
        """The captions' own words."""
        return self.origin.said

    @property
    def figure(self) -> Decimal | None:
        """The amount's lower end; None for a grade."""
        return self.amount.low if self.amount else None


@dataclass(frozen=True)
class Reading:
    """A recording read: its speech, the things named, the values said."""

    speech: Speech
    sightings: tuple[Sighting, ...]
    mentions: tuple[Mention, ...]
