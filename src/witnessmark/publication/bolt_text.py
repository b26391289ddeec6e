"""The mechanics of one bolt, asked for in words and printed as lines."""

import re
from collections.abc import Iterator, Sequence

from witnessmark.errors import InputError
from witnessmark.specs.bolt_report import FRICTIONS, BoltReport, HeadSize, Row, bolt_report
from witnessmark.specs.heads import Drive
from witnessmark.specs.tool_sizes import ToolSize, parse_tool_size
from witnessmark.specs.written import Unreadable, match_number, match_unit, plain_form
from witnessmark.units import dimension

THREAD = re.compile(r"\s*(m\s?\d|#?\d+(/\d+)?\s?-\s?\d)", re.IGNORECASE)
DRIVES: dict[str | None, Drive] = {"hex": "hex head", "key": "key"}
LABEL_WIDTH = 44


def requested_report(bolt: str, grade: str | None, said: str | None, frictions: Sequence[float]) -> BoltReport:
    """The report on a thread or a head given in words, with a torque given in words.

    Raises InputError where one of them cannot be read or is not known.
    """
    wanted = bolt.strip() if THREAD.match(bolt) else _head(bolt)
    torque = _torque(said) if said else None
    try:
        return bolt_report(wanted, grade, tuple(frictions) or FRICTIONS, torque)
    except (ValueError, KeyError) as why:
        problem, _, remedy = str(why.args[0]).partition("; ")
        raise InputError("bolt", problem, remedy or "see: witnessmark bolt --help") from None


def bolt_lines(report: BoltReport) -> Iterator[str]:
    """The lines of a report: what is to be said of the torque, what the head can mean, what each thread takes."""
    said = f": {report.said.verdict}. {report.said.message}" if report.said is not None else ""
    yield report.title + said
    for row in report.meanings:
        yield _line(Row(f"can be {row.label}", row.value, row.source))
    for section in report.sections:
        yield ""
        yield f"{section.thread.name}, {section.grade}" + (" (assumed)" if section.assumed else "")
        yield from map(_line, section.rows)
    yield ""
    yield report.caution


def _line(row: Row) -> str:
    return f"  {row.label:{LABEL_WIDTH}} {row.value}  [{row.source}]"


def _head(text: str) -> HeadSize:
    try:
        size: ToolSize = parse_tool_size(text)
    except Unreadable as why:
        raise InputError(
            "bolt", f"{text!r} is no thread and no size of a head", "write M8, 3/8-16, 13 mm or T30"
        ) from why
    return HeadSize(size.system, size.size, DRIVES.get(size.drive))


def _torque(text: str) -> tuple[float, str]:
    plain = plain_form(text)
    found = match_number(plain, 0)
    unit = match_unit(plain, found[1] + plain.startswith(" ", found[1])) if found else None
    if found is None or unit is None or dimension(unit[0]) != "torque" or plain[unit[1] :].strip():
        raise InputError(
            "bolt --said", f"{text!r} is no torque", 'write a figure and its unit, as in "25 N·m" or "18 ft-lb"'
        )
    return float(found[0]), unit[0]
