"""A guide tells the values that the creator decided on, with the decision behind them and what the manual says."""

from pathlib import Path

import pytest
from conftest import write_project

from witnessmark.examination import examine
from witnessmark.publication.guide_md import guide_md
from witnessmark.publication.manuscript import prepare
from witnessmark.settling import settle

SPECS = "drain plug,,torque,30 N·m,17 mm,invented book p. 1\nbrake fluid,,grade,DOT 4,,invented book p. 2"
SAID = """
wipe the drain plug and tighten the drain plug to fifty newton meters
top up the reservoir with fresh dot 3 brake fluid
wipe the whole lot down with a rag and have a look for leaks
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return write_project(tmp_path, SAID, SPECS)


def guide(project: Path) -> str:
    return guide_md(prepare(examine(project)))


def decide(project: Path, check: str, decision: str, value: str = "") -> None:
    finding = next(each for each in examine(project).findings if each.check == check)
    settle(project, finding.id, decision, "the bulletin of the year after", value)


def test_without_a_decision_the_manuals_value_is_told(project: Path) -> None:
    assert "to 30 N·m (22 lbf·ft)" in guide(project) and "DOT 4" in guide(project)


def test_the_manuals_value_counts(project: Path) -> None:
    decide(project, "value", "manual")
    assert "to 30 N·m (22 lbf·ft)" in guide(project)


def test_kept_as_said(project: Path) -> None:
    decide(project, "value", "keep")
    text = guide(project)
    assert "ighten it to 50 N·m (37 lbf·ft)" in text
    assert "kept as said: the bulletin of the year after; invented book p. 1 says 30 N·m (22 lbf·ft)" in text
    assert "Corrections to the video" not in text.split("DOT")[0]


def test_another_value_counts(project: Path) -> None:
    decide(project, "value", "value", "40 N·m")
    text = guide(project)
    assert "ighten it to 40 N·m (30 lbf·ft)" in text
    assert "the author's value: the bulletin of the year after; invented book p. 1 says 30 N·m (22 lbf·ft)" in text
    assert "| 0:0" in text.split("## Corrections to the video")[1]


def test_another_grade_counts(project: Path) -> None:
    decide(project, "grade", "value", "DOT 5.1")
    assert "DOT 5.1" in guide(project)


def test_the_facts_keep_the_tables_row(project: Path) -> None:
    before = [mention.row for mention in examine(project).reading.mentions]
    decide(project, "value", "keep")
    assert [mention.row for mention in examine(project).reading.mentions] == before
