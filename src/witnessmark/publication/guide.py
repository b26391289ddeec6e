"""The written guide before it is laid out: what the templates are given."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from witnessmark.procedure.cautions import Caution
from witnessmark.procedure.model import Note, Step
from witnessmark.project import Machine
from witnessmark.publication.corrections import TOLD
from witnessmark.publication.kit import Kit, KitItem
from witnessmark.publication.manuscript import Manuscript, Still
from witnessmark.publication.namings import NOT_MEANT
from witnessmark.publication.torques import TorqueLine, torque_lines
from witnessmark.publication.values import Stated, stated
from witnessmark.quantity import CaptionSpan, Value
from witnessmark.reading.model import Mention

SHOWN_AT_STEP = frozenset(
    {"torque", "capacity", "grade", "pressure", "gap", "thickness", "depth", "angle", "resistance"}
)
"""Kinds of values that stand under their step with what is behind them; the others are only told in its sentence."""

STATEMENT = (
    "The workshop manual of your machine, local codes and licensed practice come first, before anything in this guide "
    "or in the video. This guide tells what was done in one recording. It does not say that the repair is safe, or "
    "that it suits your machine. If you are unsure of a step, have it done by somebody qualified."
)


@dataclass(frozen=True, slots=True)
class GuideTool:
    """A thing to have at hand. size: the sizes said, None where there is none."""

    name: str
    size: Value | None


@dataclass(frozen=True, slots=True)
class Quoted:
    """The speaker's own words. value: the words, with their caption time. start: seconds of the video."""

    value: Value
    start: float


@dataclass(frozen=True, slots=True)
class GuideStep:
    """A step. number: through the whole guide, from 1. start: seconds of the video.

    shown_later: seconds at which the video shows it instead. still: its picture, None where there is none.
    """

    number: int
    text: str
    start: float
    cautions: tuple[Caution, ...]
    values: tuple[Stated, ...]
    warnings: tuple[str, ...]
    shown_later: float | None
    still: Still | None = None


@dataclass(frozen=True, slots=True)
class GuideChapter:
    """Steps that belong together."""

    title: str
    start: float
    steps: tuple[GuideStep, ...]


@dataclass(frozen=True)
class Guide:
    """The whole guide.

    bought: parts and fasteners told to be new; parts and fasteners: the others.
    shows: what the machine did that shows the job is due. told: its history, what things cost, what will be watched.
    after: intervals and rechecks that follow the job. corrections: where the video says another value than the manual.
    """

    title: str
    machine: str
    statement: str
    shows: tuple[Quoted, ...]
    cautions: tuple[Caution, ...]
    tools: tuple[GuideTool, ...]
    bought: tuple[GuideTool, ...]
    parts: tuple[GuideTool, ...]
    supplies: tuple[GuideTool, ...]
    fasteners: tuple[GuideTool, ...]
    torques: tuple[TorqueLine, ...]
    chapters: tuple[GuideChapter, ...]
    after: tuple[Stated, ...]
    told: tuple[Quoted, ...]
    corrections: tuple[Stated, ...]


def guide_of(manuscript: Manuscript) -> Guide:
    """The guide of an examination."""
    examination = manuscript.examination
    kit: Kit = manuscript.kit
    notes = examination.procedure.notes
    meant = [each for each in examination.ruled.mentions if each.role not in NOT_MEANT]
    # What may be said of another thing is asked about in the findings; a guide puts nothing right that is in doubt.
    sure = [each for each in meant if each.role == "stated" and (each.row is None or each.certain)]
    told = [stated(each) for each in sure]
    found = {mention for finding in examination.findings if finding.severity in TOLD for mention in finding.mentions}
    return Guide(
        title=examination.project.title,
        machine=machine_named(examination.project.machine),
        statement=STATEMENT,
        shows=_quoted(note for note in notes if note.kind == "symptom"),
        cautions=manuscript.before,
        tools=_things(kit.tools),
        bought=_things(kit.bought),
        parts=_things(kit.other_parts),
        supplies=_things(kit.supplies),
        fasteners=_things(kit.other_fasteners),
        torques=torque_lines(examination),
        chapters=_chapters(manuscript, {each.id: each for each in meant}),
        after=_once(each for each in told if each.kind == "interval" and each.state != "unchecked"),
        told=_quoted(note for note in notes if note.kind != "symptom"),
        corrections=tuple(each for each in (stated(one) for one in sure if one.id in found) if each.state == "differs"),
    )


def _quoted(notes: Iterable[Note]) -> tuple[Quoted, ...]:
    """Notes as quotations: whatever figures stand in them are told with the time at which they are said."""
    return tuple(
        Quoted(Value((), None, note.said, CaptionSpan(note.start, note.end, note.said)), note.start) for note in notes
    )


def machine_named(machine: Machine) -> str:
    """The machine in one phrase: `Morvane Corrit, family hatchback, 2013-2018`; "" where nothing is known of it."""
    name = " ".join(part for part in (machine.make, machine.model) if part)
    odometer = f"odometer at {machine.odometer}" if machine.odometer else None
    return ", ".join(part for part in (name, machine.kind, machine.years, odometer) if part)


def _things(items: Sequence[KitItem]) -> tuple[GuideTool, ...]:
    return tuple(GuideTool(each.name, _size(each)) for each in items)


def _size(item: KitItem) -> Value | None:
    if item.size is None:
        return None
    return Value((), item.size, item.size, CaptionSpan(item.first, item.first, item.said))


def _chapters(manuscript: Manuscript, mentions: dict[str, Mention]) -> tuple[GuideChapter, ...]:
    marks = manuscript.examination.procedure.chapters
    steps = [
        _step(number, step, cautions, mentions, manuscript.stills.get(number))
        for number, (step, cautions) in enumerate(
            zip(manuscript.examination.procedure.steps, manuscript.at_step, strict=True), 1
        )
    ]
    chapter_of = _chapters_read(manuscript.examination.procedure.steps)
    runs = groupby(zip(chapter_of, steps, strict=True), key=lambda pair: pair[0])
    return tuple(
        GuideChapter(marks[chapter].title, marks[chapter].start, tuple(step for _, step in run))
        for chapter, run in runs
    )


def _chapters_read(steps: Sequence[Step]) -> list[int]:
    """The chapter under which each step is read: one that the video shows later goes with the step that follows it."""
    chapters: list[int] = []
    following: int | None = None
    for step in reversed(steps):
        if step.shown_later is None or following is None:
            following = step.chapter
        chapters.append(following)
    return chapters[::-1]


def _step(
    number: int, step: Step, cautions: tuple[Caution, ...], mentions: dict[str, Mention], still: Still | None
) -> GuideStep:
    told = (stated(mentions[each]) for each in step.values if each in mentions)
    # whatever a sentence tells from a row of the table has that row beneath it
    values = _once(each for each in told if each.kind in SHOWN_AT_STEP or each.source is not None)
    return GuideStep(number, step.text, step.start, cautions, values, step.warnings, step.shown_later, still)


def _once(values: Iterable[Stated]) -> tuple[Stated, ...]:
    """Each value once, however often and in how many units it is said; one that differs goes before one that agrees."""
    found: dict[object, Stated] = {}
    for each in values:
        key = each.value if each.state != "unchecked" else (each.item, each.value.amounts, each.value.grade)
        if key not in found or (each.state == "differs" and found[key].state != "differs"):
            found[key] = each
    return tuple(found.values())
