"""Grades of fluids."""

import pytest
from conftest import FindingsOf

SPECS = """
brake fluid,,grade,DOT 4,,invented book p. 1
engine oil,motor oil,grade,10W-30,,invented book p. 2
"""


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("top up the brake fluid with dot 3", "DOT 4"),
        ("top up the brake fluid with dot three", "DOT 4"),
        ("fill it with engine oil, that's ten w forty", "10W-30"),
    ],
)
def test_another_grade(findings_of: FindingsOf, said: str, meant: str) -> None:
    (found,) = findings_of(said, SPECS, "grade")
    assert (found.severity, found.expected) == ("hold", meant)


@pytest.mark.parametrize(
    "said",
    ["top up the brake fluid with dot 4", "the engine oil is ten w thirty", "do not use dot 5 for the brake fluid"],
)
def test_nothing_is_found(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, SPECS, "grade") == []
