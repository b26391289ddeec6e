"""One item, two values, no row."""

from conftest import FindingsOf

TWO = """
the cam cap nuts get nine newton meters in order from the middle out
wipe it down and have a look underneath for any leaks
once more then the cam cap nuts get nineteen newton meters
"""


def test_two_values(findings_of: FindingsOf) -> None:
    found = findings_of(TWO, "", "two-values")
    assert (
        [each.severity for each in found] == ["query"] and "9 N·m" in found[0].message and "19 N·m" in found[0].message
    )


def test_the_same_value_again(findings_of: FindingsOf) -> None:
    assert findings_of(TWO.replace("nineteen", "nine"), "", "two-values") == []


def test_an_empty_row_is_a_row_without_a_value(findings_of: FindingsOf) -> None:
    (found,) = findings_of(TWO, "cam cap nuts,,torque,,10 mm,", "two-values")
    assert "the table has no value for it" in found.message and "no row" not in found.message


def test_a_row_knows_better(findings_of: FindingsOf) -> None:
    specs = "cam cap nuts,,torque,9 N·m,10 mm,invented book p. 1"
    assert findings_of(TWO, specs, "two-values") == []
    assert [each.check for each in findings_of(TWO, specs) if each.severity == "hold"] == ["value"]
