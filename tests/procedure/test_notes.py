"""What is told of a machine that is no step, against readable sentences."""

from pathlib import Path

import pytest
from narration import procedure_of, speech_of, value

HERE = Path(__file__).parent
OTHER = "and that one goes back on the bench | " * 30


def cases() -> list[tuple[str, str]]:
    """What is said, and what is told of it."""
    text = (HERE / "notes_said_told.txt").read_text(encoding="utf-8")
    lines = [line.split(maxsplit=1) for line in text.splitlines() if line[:1] not in ("", "#")]
    around = {"first": ("", OTHER), "along": (OTHER, OTHER), "last": (OTHER, "")}
    return [
        (f"{around[place][0]} {said} | {around[place][1]}", told)
        for (place, said), (_, told) in zip(lines[::2], lines[1::2], strict=True)
    ]


@pytest.mark.parametrize(("said", "told"), cases())
def test_sentences(said: str, told: str) -> None:
    found = [f"{note.kind} {note.said}" for note in procedure_of(said).notes]
    assert found == ([] if told == "nothing" else told.split(" ; "))


def test_what_is_told_is_no_step() -> None:
    said = f"{OTHER} i'll tighten the wheel nuts again after fifty miles"
    assert not [step.text for step in procedure_of(said).steps if "wheel nut" in step.text]


def test_a_value_that_may_be_a_slip_is_not_quoted() -> None:
    said = f"{OTHER} i'll check it again at forty after two weeks"
    torque = value(speech_of(said), "forty", "torque", "40 N·m", None, "m1")
    assert [note.kind for note in procedure_of(said).notes] == ["watch"]
    assert procedure_of(said, (torque,)).notes == ()
