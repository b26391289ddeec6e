"""What a check finds."""

from dataclasses import dataclass
from typing import Literal

from witnessmark.quantity import TableRow, Value

Severity = Literal["hold", "query", "note"]
SEVERITIES: tuple[Severity, ...] = ("hold", "query", "note")


@dataclass(frozen=True, slots=True)
class Fix:
    """What the creator can do about a finding.

    caption: the caption words as they should read. card: text of an on-screen correction, shown from `card_in` to `card_out` seconds.
    question: what only the creator can answer.
    """

    caption: str | None = None
    card: str | None = None
    card_in: float | None = None
    card_out: float | None = None
    question: str | None = None


@dataclass(frozen=True, slots=True)
class Ruling:
    """What the creator decided of a finding. kind: "keep", "manual", "value" or "no mistake". number: in decisions.toml, from 1."""

    kind: str
    number: int
    value: str = ""
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to settle, look at or know.

    check: name of the check. start, end: seconds in the recording. said: the captions' words. expected: what the table or mechanics give, in words.
    message: one plain sentence. cause: the likely slip. row: the table row behind `expected`. mentions: ids of the mentions concerned.
    settled: the creator's decision, as one line, None while open. ruling: the same in its parts. id: stable over rebuilds.
    """

    check: str
    severity: Severity
    start: float
    end: float
    said: str
    message: str
    expected: str | None = None
    item: str | None = None
    cause: str | None = None
    fix: Fix | None = None
    row: TableRow | None = None
    value: Value | None = None
    mentions: tuple[str, ...] = ()
    settled: str | None = None
    ruling: Ruling | None = None
    id: str = ""
