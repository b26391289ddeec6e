"""An examination made ready for the writers: the kit drawn up, each caution put before the step that needs it."""

from base64 import b64encode
from collections.abc import Mapping
from dataclasses import dataclass, field

from witnessmark.examination import Examination
from witnessmark.procedure.cautions import Caution
from witnessmark.procedure.model import Step
from witnessmark.publication.footage import Footage
from witnessmark.publication.kit import Kit, find_kit

SOON = 15.0
"""Seconds: what is said so shortly before a step begins is said of that step."""


@dataclass(frozen=True, slots=True)
class Still:
    """The picture of a step. path: its file, below the folder that is published. time: second of the video.

    alt: what it shows, in words. jpeg: its bytes. small: the same smaller, width by height pixels, for a page that
    holds all of them; or the picture that a person put in its place.
    """

    path: str
    time: float
    alt: str
    jpeg: bytes
    small: bytes
    width: int
    height: int

    @property
    def data_uri(self) -> str:
        """The smaller picture as an address that holds it (RFC 2397)."""
        return f"data:image/jpeg;base64,{b64encode(self.small).decode('ascii')}"


@dataclass(frozen=True)
class Manuscript:
    """What every writer writes from.

    before: the cautions of the whole job. at_step: for each step of the procedure, the cautions that stand before it.
    footage: the video, None where there is none or it cannot be read. stills: by number of the step, from 1.
    """

    examination: Examination
    kit: Kit
    before: tuple[Caution, ...]
    at_step: tuple[tuple[Caution, ...], ...]
    footage: Footage | None = None
    stills: Mapping[int, Still] = field(default_factory=dict)

    def step_of(self, caution: Caution) -> int | None:
        """Number of the step that a caution stands before, from 1; None for one of the whole job."""
        return next((n for n, here in enumerate(self.at_step, 1) if caution in here), None)


def prepare(examination: Examination) -> Manuscript:
    """The manuscript of an examination."""
    steps = examination.procedure.steps
    places = {caution.id: _place(caution, steps) for caution in examination.cautions}
    at_step = tuple(
        tuple(caution for caution in examination.cautions if places[caution.id] == index) for index in range(len(steps))
    )
    before = tuple(caution for caution in examination.cautions if places[caution.id] is None)
    return Manuscript(examination, find_kit(examination.reading, examination.table), before, at_step)


def _place(caution: Caution, steps: tuple[Step, ...]) -> int | None:
    """Index of the step being done when the danger shows, or of the next one where that begins at once."""
    if caution.whole_job or not steps:
        return None
    begun = [i for i, step in enumerate(steps) if step.start <= caution.start]
    coming = [i for i, step in enumerate(steps) if step.start > caution.start]
    current = max(begun, key=lambda i: steps[i].start, default=None)
    following = min(coming, key=lambda i: steps[i].start, default=None)
    if current is not None and caution.start <= steps[current].end:
        return current
    if following is not None and steps[following].start - caution.start <= SOON:
        return following
    return current
