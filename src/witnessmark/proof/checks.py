"""All checks, in the order in which their findings are told of one moment."""

import hashlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from witnessmark.proof import (
    arithmetic,
    direction,
    grade,
    hazard,
    misheard,
    never_refitted,
    no_value,
    one_time,
    order,
    owed,
    past_strength,
    restated_pair,
    tool_size,
    two_sizes,
    two_values,
    unit_short,
    value_against_row,
    worn,
)
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import SEVERITIES, Finding

Check = Callable[[Evidence], Iterable[Finding]]

CHECKS: tuple[Check, ...] = (
    value_against_row.check,
    restated_pair.check,
    grade.check,
    two_values.check,
    past_strength.check,
    tool_size.check,
    two_sizes.check,
    direction.check,
    worn.check,
    one_time.check,
    arithmetic.check,
    no_value.check,
    never_refitted.check,
    unit_short.check,
    misheard.check,
    order.check,
    owed.check,
    hazard.check,
)


def run_checks(evidence: Evidence) -> tuple[Finding, ...]:
    """Every check's findings by time, with ids."""
    found = [finding for check in CHECKS for finding in check(evidence)]
    found.sort(key=lambda finding: (finding.start, SEVERITIES.index(finding.severity)))
    return named(found)


def named(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Findings with ids made of what was said of what, so that they outlast a shift of all times; equal ones are counted."""
    seen: dict[str, int] = {}
    result = []
    for finding in findings:
        words = " ".join(f"{finding.check} {finding.item or ''} {finding.said}".casefold().split())
        stem = f"{finding.check}-{hashlib.sha256(words.encode()).hexdigest()[:4]}"
        seen[stem] = seen.get(stem, 0) + 1
        result.append(replace(finding, id=stem if seen[stem] == 1 else f"{stem}-{seen[stem]}"))
    return tuple(result)
