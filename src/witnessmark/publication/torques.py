"""The torque table of a job: every fastener that a torque is said of, or that is named and has a row."""

from dataclasses import dataclass, replace

from witnessmark.examination import Examination
from witnessmark.proof.decisions import FILE as DECISIONS
from witnessmark.publication.namings import NOT_MEANT
from witnessmark.publication.values import State, fits, value_said, value_specified
from witnessmark.quantity import Value
from witnessmark.reading.model import Mention
from witnessmark.specs.table import SpecRow


@dataclass(frozen=True, slots=True)
class TorqueLine:
    """One line.

    value: the manual's, else what was said; None where neither is known. said: None where the video tells no torque.
    unclear: a torque may be said of it, or of another.
    tool: its size as the table has it. source: the manual that the row cites; None where no row is behind the value.
    """

    item: str
    value: Value | None
    said: Value | None
    state: State
    tool: str
    source: str | None
    unclear: bool = False


def torque_lines(examination: Examination) -> tuple[TorqueLine, ...]:
    """The lines in the order in which the fasteners come up; a torque said of nothing that has a name has none."""
    reading = examination.ruled
    torques = [
        m
        for m in reading.mentions
        if m.kind == "torque" and m.item and m.role not in (*NOT_MEANT, "of_tool") and (m.row is None or m.certain)
    ]
    first: dict[str, float] = {}
    for mention in torques:
        first.setdefault(_item(mention), mention.start)
    for sighting in reading.sightings:
        if sighting.item and examination.table.rows_of(sighting.item, "torque"):
            first.setdefault(sighting.item, reading.speech.tokens[sighting.start].start)
    rows = {row.item: row for row in reversed(examination.table.rows) if row.kind == "torque"}
    order = sorted(first, key=lambda item: (first[item], item))
    rows |= {m.row.item: m.row for m in torques if m.row is not None and m.row.origin.file == DECISIONS}
    lines = [_line(item, rows.get(item), [m for m in torques if _item(m) == item]) for item in order]
    doubtful = {m.item for m in reading.mentions if m.kind == "torque" and m.row is not None and not m.certain}
    return tuple(
        replace(line, unclear=line.said is None and line.item in doubtful) for line in lines if line is not None
    )


def _item(mention: Mention) -> str:
    return mention.row.item if mention.row else mention.item or ""


def _line(item: str, row: SpecRow | None, said: list[Mention]) -> TorqueLine | None:
    if row is None:
        value = value_said(said[0])
        return TorqueLine(item, value, value, "unchecked", "", None)
    wrong = next((mention for mention in said if not fits(mention, row)), None)
    specified = value_specified(row)
    spoken = value_said(wrong or said[0]) if said else None
    if specified is None:
        return TorqueLine(item, spoken, spoken, "unchecked", _tools(row), None)
    source = row.origin.source or row.origin.file
    return TorqueLine(item, specified, spoken, _state(row, wrong), _tools(row), source)


def _tools(row: SpecRow) -> str:
    return ", ".join(size.printed for size in row.tool_sizes)


def _state(row: SpecRow, wrong: Mention | None) -> State:
    if wrong is not None:
        return "differs"
    return "decided" if row.origin.file == DECISIONS else "checked"
