"""Wheel nuts told before the machine is raised are loosened there, never removed (common practice). All is invented."""

import pytest
from narration import procedure_of


def _steps(said: str) -> str:
    return " ".join(step.text for step in procedure_of(said).steps)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("take the wheel nuts off | then put the jack under the sill and a stand under the axle", "on the ground"),
        (
            "half a turn so undo the lug nuts and remove the wheel bolts half a turn | put a stand under the sill",
            "half a turn",
        ),
    ],
)
def test_on_the_ground_they_are_loosened(said: str, told: str) -> None:
    text = _steps(said)
    assert "emove the wheel" not in text
    assert told in text


def test_on_the_stands_they_are_removed() -> None:
    assert "emove the wheel nuts" in _steps(
        "put the jack under the sill and a stand under the axle | take the wheel nuts off"
    )


def test_where_nothing_is_raised_they_are_removed() -> None:
    assert "emove the wheel nuts" in _steps(
        "the cart lies on its back | take the wheel nuts off | slide the wheel off the hub"
    )


def test_a_flywheel_nut_is_no_wheel_nut() -> None:
    assert "emove the flywheel nut" in _steps(
        "take the flywheel nut off | then put the jack under the deck and a stand"
    )
