"""Findings as every writer tells them: their order, and what there is to say of each."""

from collections.abc import Iterator, Sequence

from witnessmark.proof.decisions import Decision
from witnessmark.proof.model import SEVERITIES, Finding, Fix
from witnessmark.publication.escape import precise, printable
from witnessmark.transcript.model import Transcript


def is_open(finding: Finding) -> bool:
    """Whether no decision has settled a finding."""
    return finding.settled is None


def has_open_hold(findings: Sequence[Finding]) -> bool:
    """Whether something must be settled before the video is published."""
    return any(finding.severity == "hold" and is_open(finding) for finding in findings)


def by_weight(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Open ones first, holds before queries before notes, each in order of time."""
    return tuple(
        sorted(findings, key=lambda each: (not is_open(each), SEVERITIES.index(each.severity), each.start, each.id))
    )


def details(finding: Finding) -> Iterator[tuple[str, str]]:
    """What there is to say of a finding: (label, text), without control characters."""
    told = (
        ("finding", finding.message),
        ("said", f'"{finding.said}"' if finding.said else None),
        ("expected", _expected(finding)),
        ("likely", finding.cause),
        *(_fix(finding.fix) if finding.fix else ()),
        ("settled", finding.settled),
    )
    return ((label, printable(text)) for label, text in told if text)


def _expected(finding: Finding) -> str | None:
    if finding.row is None:
        return finding.expected
    place = f"{finding.row.file} row {finding.row.row}"
    source = f", {finding.row.source}" if finding.row.source else ""
    return f"{finding.expected or finding.item or 'see the table'} ({place}{source})"


def _fix(fix: Fix) -> Iterator[tuple[str, str | None]]:
    yield "caption", f'"{fix.caption}"' if fix.caption else None
    if fix.card:
        shown = (
            f" from {precise(fix.card_in)} to {precise(fix.card_out)}"
            if fix.card_in is not None and fix.card_out is not None
            else ""
        )
        yield "card", f'"{fix.card}"{shown}'
    yield "question", fix.question


def left_out(captions: str, transcript: Transcript) -> tuple[str, ...]:
    """Where words of a captions file are left out, and which, one line each. captions: the file's name."""
    return tuple(f'{captions} line {note.line} "{note.lost}"' for note in transcript.lost)


def stale_text(decision: Decision) -> str:
    """A decision that fits no finding any more, as one line."""
    about = f" of {decision.item}" if decision.item else ""
    reason = f": {decision.reason}" if decision.reason else ""
    return f'decision {decision.number} in decisions.toml, on "{decision.said}"{about} ({decision.check}, {decision.decision}){reason}'
