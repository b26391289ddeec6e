"""One value in two units, by the unit definitions in NIST SP 811, appendix B."""

import pytest
from conftest import FindingsOf


@pytest.mark.parametrize(
    "said",
    [
        "the bracket bolts get thirty two foot pounds, which is fifty four newton meters",
        "the bracket bolts get ten newton meters, that's a hundred and twenty inch pounds",
    ],
)
def test_a_pair_that_disagrees(findings_of: FindingsOf, said: str) -> None:
    (found,) = findings_of(said, "", "restated-pair")
    assert found.severity == "hold"


@pytest.mark.parametrize(
    "said",
    [
        "the bracket bolts get thirty two foot pounds, which is forty three newton meters",
        "the bracket bolts get ten foot pounds, that's a hundred and twenty inch pounds",
        "the bracket bolts get twenty five foot pounds, or thirty four newton meters",
    ],
)
def test_a_pair_that_agrees(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, "", "restated-pair") == []


def test_an_empty_row_stands_behind_nothing(findings_of: FindingsOf) -> None:
    said = "the bracket bolts get thirty two foot pounds, which is fifty four newton meters"
    (found,) = findings_of(said, "bracket bolts,,torque,,13 mm,", "restated-pair")
    assert found.row is None and found.value is None


def test_the_row_tells_which_of_the_two_is_wrong(findings_of: FindingsOf) -> None:
    specs = "bracket bolts,,torque,32 lbf·ft,13 mm,invented book p. 1"
    (found,) = findings_of(
        "the bracket bolts get thirty two foot pounds, which is fifty four newton meters", specs, "restated-pair"
    )
    assert found.said.startswith("fifty four") and "32 lbf·ft" in (found.expected or "")
