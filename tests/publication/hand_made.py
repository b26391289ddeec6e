"""Steps, cautions and findings made by hand."""

from dataclasses import replace
from typing import Any

from witnessmark.procedure.cautions import Caution
from witnessmark.procedure.model import Step
from witnessmark.proof.model import Finding, Fix
from witnessmark.quantity import TableRow


def step(start: float, text: str, *values: str, chapter: int = 0) -> Step:
    return Step(start, start + 5, 0, text, "fit", (), values, chapter)


def caution(id: str, start: float, whole_job: bool = False) -> Caution:
    return Caution(
        id, "pinch", "WARNING", "Pinch", "It pinches. It can crush. Keep off.", "It can crush.", "Keep off.", start, 0,
        whole_job, None, "common practice",
    )  # fmt: skip


def finding(id: str = "f1", **changes: Any) -> Finding:
    made = Finding(
        "value", "hold", 42.0, 44.5, "50 newton metres", "The drain plug is said to take another torque.",
        "30 N·m (22 lbf·ft)", "drain plug", "another row's value",
        Fix("30 newton metres", "Drain plug: 30 N·m", 42.0, 46.0), TableRow("specs.csv", 3, "Manual p. 9"), id=id,
    )  # fmt: skip
    return replace(made, **changes)
