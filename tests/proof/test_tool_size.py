"""Tool sizes against their rows."""

import pytest
from conftest import FindingsOf

SPECS = """
wheel nuts,lug nuts,torque,110 N·m,21 mm,invented book p. 1
rail bolts,,torque,30 N·m,19 mm or 3/4 in,invented book p. 2
"""


@pytest.mark.parametrize(
    "said", ["the lug nuts on this one are a nineteen millimeter", "nineteen millimeter on the wheel nuts"]
)
def test_another_size(findings_of: FindingsOf, said: str) -> None:
    (found,) = findings_of(said, SPECS, "tool-size")
    assert (found.severity, found.expected) == ("query", "21 mm")


@pytest.mark.parametrize(
    "said",
    [
        "twenty one millimeter socket on the wheel nuts",
        "three quarter inch socket on the rail bolts",
        "the rail bolts are a nineteen millimeter",
        "half inch drive ratchet on the wheel nuts",
    ],
)
def test_nothing_is_found(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, SPECS, "tool-size") == []
