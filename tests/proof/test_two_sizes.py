"""Two sizes for one head, and no row to say which is right."""

import pytest
from conftest import FindingsOf

TWO = """
the rocker cover screws are a ten millimeter socket
wipe it down and have a look underneath for any leaks while it is all apart
now twelve millimeter socket on the rocker cover screws
"""


def test_two_sizes_of_one_fastener(findings_of: FindingsOf) -> None:
    (found,) = findings_of(TWO, "", "two-sizes")
    assert found.severity == "query" and "10 mm" in found.message and "12 mm" in found.message


def test_the_same_size_again(findings_of: FindingsOf) -> None:
    assert findings_of(TWO.replace("twelve", "ten"), "", "two-sizes") == []


def test_a_row_knows_better(findings_of: FindingsOf) -> None:
    assert (
        findings_of(TWO, "rocker cover screws,valve cover screws,torque,9 N·m,10 mm,invented book p. 1", "two-sizes")
        == []
    )


FIRST = "the rocker cover screws are a ten millimeter socket"


@pytest.mark.parametrize(
    "more",
    [
        "\nhold the nut with a twelve millimeter wrench and turn the rocker cover screws",
        "\na five millimeter allen key also fits the rocker cover screws",
        " or on older ones the rocker cover screws are a twelve millimeter socket",
        "\nthe fuel tank bolts are a twelve millimeter socket",
        "\nthe rocker cover screws are a twelve no sorry a ten millimeter socket",
    ],
)
def test_two_sizes_that_are_right(findings_of: FindingsOf, more: str) -> None:
    assert findings_of(FIRST + more, "", "two-sizes") == []
