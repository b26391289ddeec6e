"""facts.json: the whole result of an examination, for other programs to read."""

import json
from decimal import Decimal
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict

from witnessmark.procedure.cautions import Caution
from witnessmark.procedure.model import NoteKind
from witnessmark.procedure.signal_words import Signal
from witnessmark.proof.model import Finding, Fix, Severity
from witnessmark.publication.escape import json_text
from witnessmark.publication.kit import KitItem
from witnessmark.publication.manuscript import Manuscript
from witnessmark.quantity import Amount
from witnessmark.reading.model import Mention
from witnessmark.reading.sizes import SizeSaid
from witnessmark.specs.table import SpecRow
from witnessmark.units import si


class _Fact(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class RecordingFacts(_Fact):
    """The recording. duration: seconds. words: how many are spoken."""

    title: str
    captions: str
    duration: float
    words: int


class SiFacts(_Fact):
    """A figure in the unit in which facts carry its dimension."""

    value: float
    unit: str


class SpecFacts(_Fact):
    """The specification that a value is about. row: line of the file. printed: the value as the table has it."""

    file: str
    row: int
    source: str
    printed: str


class MentionFacts(_Fact):
    """A value said. value: a figure, a grade ("DOT 4") or a lettered size ("T20"). low, high: ends of its range."""

    id: str
    kind: str
    start: float
    end: float
    said: str
    value: int | float | str | None
    unit: str | None
    low: int | float | None
    high: int | float | None
    si: SiFacts | None
    item: str | None
    spec: SpecFacts | None
    of_other_machine: bool


class FixFacts(_Fact):
    """What to do about a finding. card: text on the screen, from card_in to card_out seconds."""

    caption: str | None
    card: str | None
    card_in: float | None
    card_out: float | None
    question: str | None


class FindingFacts(_Fact):
    """A finding. settled: the decision that settles it, None while it is open."""

    id: str
    check: str
    severity: Severity
    start: float
    end: float
    said: str
    expected: str | None
    item: str | None
    message: str
    cause: str | None
    fix: FixFacts | None
    settled: str | None


class StepFacts(_Fact):
    """A step. chapter: index into chapters. values: ids of mentions. cautions: ids of cautions."""

    n: int
    start: float
    end: float
    text: str
    chapter: int
    values: tuple[str, ...]
    cautions: tuple[str, ...]


class ChapterFacts(_Fact):
    """A chapter mark."""

    start: float
    title: str


class KitFacts(_Fact):
    """A thing to have at hand. first: seconds at which it is first named. said: the captions' words there."""

    name: str
    size: str | None
    first: float
    said: str


class CautionFacts(_Fact):
    """A caution. step: number of the step that it stands before, None where it is of the whole job."""

    id: str
    hazard: str
    signal: Signal
    text: str
    start: float
    step: int | None
    source: str


class NoteFacts(_Fact):
    """What is told of the machine that is no step. kind: symptom, history, cost or watch."""

    kind: NoteKind
    start: float
    end: float
    said: str


class OwedFacts(_Fact):
    """A promise made to viewers. settled: what it points to, None while nothing stands behind it."""

    kind: str
    start: float
    said: str
    about: str
    settled: str | None


class Facts(_Fact):
    """The whole of facts.json. Times are seconds from the start of the recording."""

    format: Literal["witnessmark-facts"]
    version: Literal[1]
    recording: RecordingFacts
    mentions: tuple[MentionFacts, ...]
    findings: tuple[FindingFacts, ...]
    steps: tuple[StepFacts, ...]
    chapters: tuple[ChapterFacts, ...]
    tools: tuple[KitFacts, ...]
    parts: tuple[KitFacts, ...]
    supplies: tuple[KitFacts, ...]
    fasteners: tuple[KitFacts, ...]
    cautions: tuple[CautionFacts, ...]
    owed: tuple[OwedFacts, ...]
    notes: tuple[NoteFacts, ...]


def facts_of(manuscript: Manuscript) -> Facts:
    """The facts of an examination."""
    examination, kit = manuscript.examination, manuscript.kit
    transcript = examination.reading.speech.transcript
    project = examination.project
    return Facts(
        format="witnessmark-facts",
        version=1,
        recording=RecordingFacts(
            title=project.title,
            captions=project.captions.name,
            duration=_time(transcript.duration),
            words=len(transcript.words),
        ),
        mentions=tuple(map(_mention, examination.reading.mentions)),
        findings=tuple(map(_finding, examination.findings)),
        steps=_steps(manuscript),
        chapters=tuple(
            ChapterFacts(start=_time(each.start), title=each.title) for each in examination.procedure.chapters
        ),
        tools=_kit(kit.tools),
        parts=_kit(kit.parts),
        supplies=_kit(kit.supplies),
        fasteners=_kit(kit.fasteners),
        cautions=tuple(_caution(each, manuscript.step_of(each)) for each in examination.cautions),
        owed=tuple(
            OwedFacts(kind=each.kind, start=_time(each.start), said=each.said, about=each.about, settled=each.settled)
            for each in examination.owed
        ),
        notes=tuple(
            NoteFacts(kind=each.kind, start=_time(each.start), end=_time(each.end), said=each.said)
            for each in examination.procedure.notes
        ),
    )


def facts_json(manuscript: Manuscript) -> str:
    """The text of facts.json: keys in the contract's order, times to the millisecond."""
    return json_text(facts_of(manuscript).model_dump_json(indent=1)) + "\n"


def facts_schema() -> str:
    """The JSON Schema of facts.json, as shipped in data/facts.schema.json."""
    schema: dict[str, Any] = Facts.model_json_schema(mode="serialization")
    return json.dumps({"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}, indent=1) + "\n"


def _time(seconds: float) -> float:
    return round(seconds, 3)


def _number(x: Decimal) -> int | float:
    return int(x) if x == x.to_integral_value() else float(round(x, 6))


def _mention(mention: Mention) -> MentionFacts:
    whole = mention.whole if mention.amount else None
    return MentionFacts(
        id=mention.id,
        kind=mention.kind,
        start=_time(mention.origin.start),
        end=_time(mention.origin.end),
        said=mention.said,
        value=_value(mention),
        unit=_unit(mention),
        low=_number(whole.low) if whole else None,
        high=_number(whole.high) if whole else None,
        si=_si(mention.amount) if mention.amount and not _lettered(mention.size) else None,
        item=mention.item,
        spec=_spec(mention.row),
        of_other_machine=mention.role == "other_machine",
    )


def _lettered(size: SizeSaid | None) -> bool:
    """Whether a tool size is a number behind letters (T20), which measures nothing."""
    return size is not None and size.system not in ("mm", "in")


def _value(mention: Mention) -> int | float | str | None:
    if mention.size is not None:
        return _number(mention.size.size)
    return _number(mention.amount.low) if mention.amount else mention.grade


def _unit(mention: Mention) -> str | None:
    if mention.size is not None:
        return mention.size.system
    return mention.amount.unit or None if mention.amount else None


def _si(amount: Amount) -> SiFacts | None:
    if not amount.unit:
        return None
    value, unit = si(amount.low, amount.unit)
    return SiFacts(value=float(round(value, 6)), unit=unit)


def _spec(row: SpecRow | None) -> SpecFacts | None:
    if row is None:
        return None
    return SpecFacts(file=row.origin.file, row=row.origin.row, source=row.origin.source, printed=row.printed)


def _finding(finding: Finding) -> FindingFacts:
    return FindingFacts(
        id=finding.id,
        check=finding.check,
        severity=finding.severity,
        start=_time(finding.start),
        end=_time(finding.end),
        said=finding.said,
        expected=finding.expected,
        item=finding.item,
        message=finding.message,
        cause=finding.cause,
        fix=_fix(finding.fix) if finding.fix else None,
        settled=finding.settled,
    )


def _fix(fix: Fix) -> FixFacts:
    return FixFacts(
        caption=fix.caption,
        card=fix.card,
        card_in=None if fix.card_in is None else _time(fix.card_in),
        card_out=None if fix.card_out is None else _time(fix.card_out),
        question=fix.question,
    )


def _steps(manuscript: Manuscript) -> tuple[StepFacts, ...]:
    steps = zip(manuscript.examination.procedure.steps, manuscript.at_step, strict=True)
    return tuple(
        StepFacts(
            n=n,
            start=_time(step.start),
            end=_time(step.end),
            text=step.text,
            chapter=step.chapter,
            values=step.values,
            cautions=tuple(caution.id for caution in cautions),
        )
        for n, (step, cautions) in enumerate(steps, 1)
    )


def _kit(things: tuple[KitItem, ...]) -> tuple[KitFacts, ...]:
    return tuple(KitFacts(name=each.name, size=each.size, first=_time(each.first), said=each.said) for each in things)


def _caution(caution: Caution, step: int | None) -> CautionFacts:
    return CautionFacts(
        id=caution.id,
        hazard=caution.hazard,
        signal=caution.signal,
        text=caution.text,
        start=_time(caution.start),
        step=step,
        source=caution.source,
    )
