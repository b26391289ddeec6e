"""Taken off, with a torque in the table, and never put back."""

import re
import shutil
from pathlib import Path

import pytest
from conftest import FindingsOf

from witnessmark.examination import examine

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
SPECS = """
motor mount bolts,mount bolts,torque,45 N·m,15 mm,invented book p. 1
splash cover screws,cover screws,torque,9 N·m,10 mm,invented book p. 2
belt guard nuts,guard nuts,torque,12 N·m,13 mm,invented book p. 3
"""


def cases() -> list[tuple[str, str]]:
    """What is said, line by line, and what is asked about."""
    text = (HERE / "never_refitted_said_found.txt").read_text(encoding="utf-8")
    blocks = ["\n".join(line for line in block.splitlines() if line[:1] != "#") for block in text.split("\n\n")]
    told = [re.fullmatch(r"said: (.*)\nfound: (.*)", block.strip(), re.S) for block in blocks if block.strip()]
    return [(each[1], each[2]) for each in told if each]


@pytest.mark.parametrize(("said", "found"), cases())
def test_sentences(findings_of: FindingsOf, said: str, found: str) -> None:
    asked = findings_of(said, SPECS, "never-refitted")
    assert [(each.severity, each.item) for each in asked] == ([] if found == "nothing" else [("query", found)])


@pytest.mark.parametrize("cut", [False, True])
def test_a_recording_whose_refitting_is_cut(tmp_path: Path, cut: bool) -> None:
    shutil.copytree(ROOT / "benchmarks/recordings/winch_service", tmp_path / "cut")
    captions = next((tmp_path / "cut").glob("captions.*"))
    text = captions.read_text(encoding="utf-8")
    if cut:
        cues = text.split("\n\n")
        first = next(i for i, cue in enumerate(cues) if "the clutch nut is 10 Nm" in cue)
        text = "\n\n".join(cues[:first] + cues[first + 1 :])
    captions.write_text(text, encoding="utf-8")
    asked = [each.item for each in examine(tmp_path / "cut").findings if each.check == "never-refitted"]
    assert asked == (["windlass clutch nut"] if cut else [])
