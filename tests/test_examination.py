"""What the title of a recording tells of the place of the work. The machine and its table are invented."""

from pathlib import Path

import pytest

from witnessmark.examination import examine

TABLE = """item,also_called,property,value,tool_size,source
front caliper bracket bolts,caliper bracket bolts,torque,108 N·m,17 mm,Invented manual p. 1
rear caliper bracket bolts,,torque,64 N·m,14 mm,Invented manual p. 2
"""
SAID = (
    "bracket bolts hold the whole brake on",
    "so clean the threads",
    "and start both by hand",
    "big wrench now",
    "and 108 newton meters on these",
)


@pytest.mark.parametrize(
    ("title", "told"),
    [
        ("Front pads and rotors", True),
        ("Pads and rotors", False),
        ("Front and rear brakes", False),
        ("Rear brakes of a hatchback", False),
    ],
)
def test_bolts_with_a_twin_at_the_other_end_are_told_only_where_the_title_names_the_end(
    tmp_path: Path, title: str, told: bool
) -> None:
    cues = "".join(
        f"{n}\n00:00:{n * 3:02},000 --> 00:00:{n * 3 + 3:02},000\n{line}\n\n" for n, line in enumerate(SAID, 1)
    )
    (tmp_path / "captions.srt").write_text(cues, encoding="utf-8")
    (tmp_path / "specs.csv").write_text(TABLE, encoding="utf-8")
    (tmp_path / "repair.toml").write_text(
        f'title = "{title}"\ncaptions = "captions.srt"\nspecs = ["specs.csv"]\n[machine]\nkind = "car"\n',
        encoding="utf-8",
    )
    steps = " ".join(step.text for step in examine(tmp_path).procedure.steps)
    assert ("the front caliper bracket bolts" in steps and "108 N·m" in steps) == told, steps
