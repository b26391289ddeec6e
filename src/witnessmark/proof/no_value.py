"""A fastener tightened that has a torque in the table, and no torque said for it anywhere.

*said*: put the bracket bolts back in and tighten them up · *found*: the table gives 108 N·m, and nobody says it.
Source: common practice.
"""

from collections.abc import Iterator

from witnessmark.procedure.model import Step
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.proof.traits import traits_of
from witnessmark.proof.wording import card, row_place, row_text, row_value
from witnessmark.specs.table import SpecRow

NAME = "no-value"
REACH = 60.0  # seconds after a step in which a torque without a sure item may be its own


def check(evidence: Evidence) -> Iterator[Finding]:
    """Steps that tighten an item of the table; one finding an item, a query where its failure can hurt."""
    told = _told(evidence)
    found: set[str] = set()
    for step in sorted(evidence.procedure.steps, key=lambda each: each.start):
        if step.action != "tighten" or _has_torque(evidence, step):
            continue
        for item in step.items:
            row = _row(evidence, item)
            if row is not None and item not in told | found:
                found.add(item)
                yield _finding(evidence, step, row)


def _told(evidence: Evidence) -> set[str]:
    """Items whose torque was said, or may have been."""
    torques = [mention for mention in evidence.mentions if mention.kind in ("torque", "angle")]
    return {item for mention in torques for item in (mention.item, *mention.rivals) if item}


def _has_torque(evidence: Evidence, step: Step) -> bool:
    """Whether a torque is said with the step or soon after, of whatever item reading took it for."""
    near = (m for m in evidence.mentions if m.kind == "torque" and step.start - 5 <= m.start <= step.end + REACH)
    return any(m.id in step.values or not m.sure for m in near)


def _row(evidence: Evidence, item: str) -> SpecRow | None:
    rows = (row for row in evidence.table.rows_of(item) if row.kind == "torque" and row.amounts and not row.to_look_up)
    return next(rows, None)


def _finding(evidence: Evidence, step: Step, row: SpecRow) -> Finding:
    critical = any("critical:yes" in traits_of(name) for name in row.names)
    message = f"{row.item} is tightened and its torque is never said; {row_place(row)} says {row_text(row)}."
    end = min(step.end, step.start + 5)
    said = _words(evidence, step)
    return Finding(
        NAME,
        "query" if critical else "note",
        step.start,
        end,
        said,
        message,
        row_text(row),
        row.item,
        "the value was left out",
        card(f"{row.item}: {row_text(row)}", step.start),
        row.origin,
        row_value(row),
    )


def _words(evidence: Evidence, step: Step) -> str:
    tokens = evidence.reading.speech.tokens
    end = next((i for i in range(step.start_token, len(tokens)) if tokens[i].start >= step.end), len(tokens))
    return evidence.reading.speech.said(step.start_token, max(step.start_token + 1, min(end, step.start_token + 12)))
