"""What the procedure of a recording is:
steps in the order to do them, chapters, remarks on order, talk kept out of the steps.
"""

from dataclasses import dataclass
from typing import Literal

NoteKind = Literal["symptom", "history", "cost", "watch"]


@dataclass(frozen=True, slots=True)
class ValueAt:
    """One value said. start_token, end_token: tokens, end exclusive. kind: torque, tool_size, gap, ...
    shown: as a guide prints it.

    item: name from the specification table. quoted: measured, taken back, warned against or of another machine, so no
    value of a step. measured: read off the machine, or said beside what was. doubtful: another item may be meant.
    property: of the row that it is checked against, "" without one.
    """

    start_token: int
    end_token: int
    kind: str
    shown: str
    item: str | None
    mention_id: str
    quoted: bool = False
    measured: bool = False
    doubtful: bool = False
    property: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do. start, end: seconds in the recording. action: class of the action vocabulary.
    items: names of what is worked on.

    values: mention ids. chapter: index into Procedure.chapters. shown_later: seconds at which the recording shows a
    step that belongs earlier.
    warnings: whole sentences of what not to do.
    """

    start: float
    end: float
    start_token: int
    text: str
    action: str
    items: tuple[str, ...]
    values: tuple[str, ...]
    chapter: int
    shown_later: float | None = None
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter mark. start: seconds; the first is 0.0. title: at most 60 characters, no two alike."""

    start: float
    title: str


@dataclass(frozen=True, slots=True)
class OrderRemark:
    """The speaker says that a step belonged elsewhere.

    start, end: seconds. said: the captions' words. about: what belonged elsewhere.
    """

    start: float
    end: float
    said: str
    about: str


@dataclass(frozen=True, slots=True)
class Remark:
    """Talk that is no step.

    start: seconds. said: the captions' words. kind: greeting, farewell, channel, history, price, joke, hearsay,
    or a kind of note.
    """

    start: float
    said: str
    kind: str


@dataclass(frozen=True, slots=True)
class Note:
    """What the speaker tells of the machine that is no step.

    start, end: seconds. start_token, end_token: tokens, end exclusive. said: the speaker's words without fillers.
    """

    kind: NoteKind
    start: float
    end: float
    start_token: int
    end_token: int
    said: str


@dataclass(frozen=True, slots=True)
class Procedure:
    """The whole. steps: in the order to do them. notes: in the order told."""

    steps: tuple[Step, ...]
    chapters: tuple[Chapter, ...]
    order_remarks: tuple[OrderRemark, ...]
    history: tuple[Remark, ...]
    notes: tuple[Note, ...] = ()
