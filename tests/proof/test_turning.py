"""Turning directions said against the thread, as steps print them. All steps and findings are invented."""

from dataclasses import replace

import pytest

from witnessmark.procedure.model import Procedure, Step
from witnessmark.proof.model import Finding, Ruling
from witnessmark.proof.turning import LOOK_UP, with_right_turns

STEPS = (
    Step(10.0, 14.0, 5, "Turn the blade nut anticlockwise with a 24 mm socket.", "turn", (), (), 0),
    Step(40.0, 44.0, 60, "Turn the idler bolt anticlockwise.", "turn", (), (), 0),
)
FOUND = Finding("direction", "hold", 12.0, 13.0, "anticlockwise", "It loosens clockwise.", "clockwise", "blade nut")


def _told(finding: Finding) -> tuple[str, tuple[str, ...]]:
    steps = with_right_turns(Procedure(STEPS, (), (), ()), [finding]).steps
    assert steps[1] == STEPS[1]
    return steps[0].text, steps[0].warnings


@pytest.mark.parametrize("severity", ["hold", "query"])
@pytest.mark.parametrize("said", ["anticlockwise", "counterclockwise", "counter clockwise", "Anti-clockwise"])
def test_a_direction_that_is_open_is_not_printed_and_is_to_be_looked_up(severity: str, said: str) -> None:
    finding = replace(FOUND, severity=severity, said=said)
    assert _told(finding) == ("Turn the blade nut with a 24 mm socket.", (LOOK_UP,))


@pytest.mark.parametrize(
    ("ruling", "told"),
    [
        (Ruling("manual", 1), "Turn the blade nut clockwise with a 24 mm socket."),
        (Ruling("value", 1, "clockwise"), "Turn the blade nut clockwise with a 24 mm socket."),
        (Ruling("keep", 1), STEPS[0].text),
        (Ruling("no mistake", 1), STEPS[0].text),
    ],
)
def test_what_the_creator_decided_is_printed(ruling: Ruling, told: str) -> None:
    assert _told(replace(FOUND, ruling=ruling)) == (told, ())


@pytest.mark.parametrize(
    "finding",
    [
        replace(FOUND, said="clockwise"),
        replace(FOUND, said="lefty loosey"),
        replace(FOUND, start=25.0),
        replace(FOUND, check="value"),
    ],
)
def test_a_step_that_tells_another_direction_or_is_far_stays(finding: Finding) -> None:
    assert _told(finding) == (STEPS[0].text, ())
