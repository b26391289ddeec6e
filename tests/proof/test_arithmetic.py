"""Spoken sums."""

import pytest
from conftest import FindingsOf

WRONG = [
    # said, what it comes to
    ("the pads were 38 dollars and 64 dollars for the rotors so that's a hundred and twelve dollars", "$102"),
    ("two quarts plus three quarts makes six quarts", "5 qt"),
    ("it came with twelve liters minus three liters leaves eight liters", "9 L"),
    ("twelve pounds and nine pounds, twenty five pounds altogether", "21 lb"),
    ("four times nine liters makes thirty two liters", "36 L"),
]
RIGHT = [
    "the pads were 38 dollars and 64 dollars for the rotors so that's a hundred and two dollars",
    "the pads were 38 dollars and 64 dollars for the rotors so that's about a hundred dollars",
    "the pads were 38 dollars and 64 dollars for the rotors so that's a hundred dollars",
    "two quarts plus three quarts makes five quarts",
    "four times nine liters makes thirty six liters",
    "one and a half times nine liters is thirteen and a half liters",
]
SILENT = [
    "between two quarts and three quarts, that's five bolts",
    "ten foot pounds and twenty foot pounds so that's two passes",
    "twenty foot pounds and thirty foot pounds that's forty one newton meters",
    "there are two bolts and three nuts so that's six things to lose",
    "four quarts and a half, that's four and a quarter liters",
    "it holds two quarts or three quarts so that's four quarts on the shelf",
]


@pytest.mark.parametrize(("said", "right"), WRONG)
def test_it_does_not_add_up(findings_of: FindingsOf, said: str, right: str) -> None:
    (found,) = findings_of(said, "", "arithmetic")
    assert (found.severity, found.expected) == ("query", right)


@pytest.mark.parametrize("said", RIGHT + SILENT)
def test_nothing_is_found(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, "", "arithmetic") == []
