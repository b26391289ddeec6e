"""What follows the thing in a sentence, while it is read."""

from dataclasses import dataclass

from witnessmark.procedure.model import ValueAt
from witnessmark.reading.sightings import Sighting


@dataclass(slots=True)
class Tail:
    """Phrases after the thing. end: token after the last. particle: "off", "out", ... where one was said."""

    phrases: list[str]
    end: int
    particle: str = ""
    values: tuple[ValueAt, ...] = ()
    sightings: tuple[Sighting, ...] = ()
    sizes: tuple[ValueAt, ...] = ()
