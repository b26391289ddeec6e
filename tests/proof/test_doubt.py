"""A torque that is wrong for its own row and right for another one: printed only with the advice to look it up."""

from pathlib import Path

import pytest
from conftest import write_project

from witnessmark.examination import examine
from witnessmark.settling import settle

SPECS = """
clamp bolts,,torque,20 N·m,,invented book p. 1
yoke bolts,,torque,35 N·m,,invented book p. 2
"""


@pytest.mark.parametrize(
    ("said", "doubted"),
    [
        ("the clamp bolts get 35 newton metres", True),  # right for the yoke bolts
        ("the clamp bolts get 20 newton metres", False),
        ("the clamp bolts get 27 newton metres", False),  # right for none: plainly a slip
    ],
)
def test_a_reader_is_told_to_look_it_up(tmp_path: Path, said: str, doubted: bool) -> None:
    examined = examine(write_project(tmp_path, said, SPECS))
    (mention,) = examined.reading.mentions
    assert (mention.item, mention.right_elsewhere) == ("clamp bolts", doubted)
    warned = [warning for step in examined.procedure.steps for warning in step.warnings]
    assert any("look it up in the workshop manual" in warning for warning in warned) is doubted


@pytest.mark.parametrize("decision", ["manual", "keep"])
def test_a_decision_ends_the_doubt(tmp_path: Path, decision: str) -> None:
    folder = write_project(tmp_path, "the clamp bolts get 35 newton metres", SPECS)
    (finding,) = [each for each in examine(folder).findings if each.check == "value"]
    settle(folder, finding.id, decision, "seen on the film", "")
    warned = [warning for step in examine(folder).procedure.steps for warning in step.warnings]
    assert not any("look it up" in warning for warning in warned)
