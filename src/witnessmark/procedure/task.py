"""One action made complete, and the classes of actions."""

from dataclasses import dataclass, field

from witnessmark.procedure.lexicon import Deed
from witnessmark.procedure.model import ValueAt

TAKING = frozenset({"remove", "loosen", "disconnect", "drain", "open"})
FITTING = frozenset({"fit", "tighten", "connect", "fill", "close", "apply", "lubricate"})
SIZED = TAKING | FITTING | {"adjust", "hold", "inspect", "turn"}


@dataclass(slots=True)
class Task:
    """An action ready to be written.

    thing: with its article, "" where the verb needs none. item: the table's name where it has one.
    doubtful: its torque may be of another fastener. guessed: only "it" was said, and its thing was found before.
    """

    start: int
    end: int
    what: Deed
    thing: str
    plural: bool
    tails: list[str]
    negative: bool
    source: str
    sure: bool
    items: tuple[str, ...] = ()
    values: list[ValueAt] = field(default_factory=list)
    sizes: list[ValueAt] = field(default_factory=list)
    torque: str = ""
    doubtful: bool = False
    guessed: bool = False
