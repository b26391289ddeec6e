"""A new decision on a finding: whether it goes with that finding, and what it is tied to."""

from collections.abc import Sequence

from witnessmark.errors import InputError
from witnessmark.language.speech import Speech
from witnessmark.nearest import nearest
from witnessmark.proof.decisions import KINDS, Decision, Kind, words_around
from witnessmark.proof.model import Finding
from witnessmark.quantity import Amount
from witnessmark.specs.printed import read_printed
from witnessmark.specs.properties import rule_for
from witnessmark.specs.tool_sizes import parse_tool_size
from witnessmark.specs.written import Unreadable
from witnessmark.units import dimension

NEAR_ID = 80  # likeness, in percent, of a mistyped id: the ids of one check share more than half their letters
NO_VALUE = frozenset({"hazard", "never-refitted", "one-time", "order", "owed"})  # checks that are about no value
IN_WORDS = frozenset({"grade", "direction", "misheard"})  # checks whose value is given in words
OF_TOOLS = frozenset({"tool-size", "two-sizes"})
REASONED: dict[str, str] = {"keep": "it stays as said", "no mistake": "the finding is wrong"}
OTHERWISE = 'use --keep or --no-mistake, and say with --why "..." in a few words why'


def decide(
    findings: Sequence[Finding], speech: Speech, finding_id: str, decision: str, reason: str = "", value: str = ""
) -> Decision:
    """A decision on one finding. Raises InputError where there is none such, or the decision does not go with it."""
    finding = next((each for each in findings if each.id == finding_id), None)
    if finding is None:
        raise _no_such(findings, finding_id)
    kind = next((each for each in KINDS if each == decision), None)
    if kind is None:
        raise InputError("settle", f"{decision!r} is no decision", f"choose one of {', '.join(KINDS)}")
    _check(finding, kind, reason, value)
    before, after = words_around(finding, speech)
    return Decision(
        finding.check,
        finding.said,
        kind,
        finding.item or "",
        " ".join(before),
        " ".join(after),
        " ".join(reason.split()),
        " ".join(value.split()),
    )


def _no_such(findings: Sequence[Finding], finding_id: str) -> InputError:
    near = nearest(finding_id, [each.id for each in findings], NEAR_ID)
    problem = "there is no such finding" + (f", the nearest is {near}" if near else "")
    remedy = "list all with: witnessmark proof DIR" if findings else "this recording has no findings"
    return InputError(f"settle {finding_id}", problem, remedy)


def _check(finding: Finding, kind: Kind, reason: str, value: str) -> None:
    """Raise InputError, with what to do instead, where a decision does not go with its finding."""
    where = f"settle {finding.id}"
    if kind in ("manual", "value") and finding.check in NO_VALUE:
        raise InputError(where, f"a finding of {finding.check} is about no value", OTHERWISE)
    if kind == "manual" and finding.row is None:
        remedy = f'add a row to the table, name the value that counts with --value "35 N·m", or {OTHERWISE}'
        raise InputError(where, "the table has no row for it, so --manual says nothing", remedy)
    if kind in REASONED and not reason.strip():
        raise InputError(where, "there is no reason", f'say with --why "..." in a few words why {REASONED[kind]}')
    if kind == "value":
        _check_value(finding, value)
    elif value:
        raise InputError(where, "a value goes only with another value that counts", "leave one of the two out")


def _check_value(finding: Finding, value: str) -> None:
    where = f"settle {finding.id}"
    if not value.strip():
        raise InputError(where, "the value that counts is missing", "name it with its unit, such as 35 N·m")
    if finding.check in IN_WORDS:
        return
    try:
        if finding.check in OF_TOOLS:
            parse_tool_size(value)
        else:
            _check_kind(finding, value, _amounts(value))
    except Unreadable as why:
        raise InputError(where, why.problem, why.remedy) from None


def _amounts(value: str) -> Sequence[Amount]:
    """A value as a manual prints it; a torque may have stages."""
    try:
        return read_printed(value, rule_for("torque")).amounts
    except Unreadable:
        return read_printed(value, rule_for("value")).amounts


def _check_kind(finding: Finding, value: str, amounts: Sequence[Amount]) -> None:
    """Raise InputError where a value is of another kind than the one it stands for: a pressure for a torque."""
    meant = {dimension(amount.unit) for amount in (finding.value.amounts if finding.value else ())}
    if meant and amounts and not meant & {dimension(amount.unit) for amount in amounts}:
        raise InputError(
            f"settle {finding.id}", f"{value!r} is no {' or '.join(sorted(meant))}", "name one with its unit"
        )
