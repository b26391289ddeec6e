"""One action as it was said."""

from dataclasses import dataclass

from witnessmark.procedure.lexicon import Deed
from witnessmark.procedure.names import Name
from witnessmark.procedure.tails import Tail
from witnessmark.reading.sightings import Sighting


@dataclass(frozen=True, slots=True)
class Action:
    """Tokens start..end (exclusive). what: verb and class. thing: what it is done to; None where nothing was said.

    negative: it is not to be done. source: "verb", "thing" or "value", the kind of words that told it. sure: whether
    the words before leave no doubt.
    """

    start: int
    end: int
    what: Deed
    thing: Name | None
    tail: Tail
    negative: bool
    source: str
    sure: bool

    @property
    def sightings(self) -> tuple[Sighting, ...]:
        """The things named in it."""
        return (*(self.thing.sightings if self.thing else ()), *self.tail.sightings)
