"""Torques that no common bolt of the size said takes."""

import pytest
from conftest import FindingsOf

PAST = [
    # said, the unit in which it would be usual
    ("the ten millimeter socket on the cover bolts and they get ninety foot pounds", "lbf·in"),
    ("grab the 8 mm socket for the bracket bolts, those are 100 N·m", None),
    ("t20 on the side panel screws and they get twenty five newton meters", None),
    ("the pinch bolt takes a five millimeter allen key and gets one hundred foot pounds", "lbf·in"),
]
POSSIBLE = [
    "the ten millimeter socket on the cover bolts and they get ninety inch pounds",
    "nineteen socket on the wheel nuts and they get eighty foot pounds",
    "the thirty two millimeter socket on the axle nut and it gets two hundred foot pounds",
    "eight millimeter allen key on the caliper bolts and they get twenty five newton meters",
    # another fastener's size
    "ten millimeter socket off the cover bolts and now the axle nut gets one hundred and fifty foot pounds",
    # no size at all, and a value that is warned against
    "the axle nut gets two hundred foot pounds",
    "ten millimeter socket on the cover bolts and do not go to ninety foot pounds",
]


@pytest.mark.parametrize(("said", "unit"), PAST)
def test_past_what_a_bolt_takes(findings_of: FindingsOf, said: str, unit: str | None) -> None:
    (found,) = findings_of(said, "", "past-strength")
    assert found.severity == "hold"
    assert unit is None or unit in (found.cause or "")


@pytest.mark.parametrize("said", POSSIBLE)
def test_possible(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, "", "past-strength") == []


def test_a_value_that_the_table_bears_out_is_right(findings_of: FindingsOf) -> None:
    """*Common practice*: special bolts exist; the manual knows them."""
    specs = "cover bolts,,torque,90 lbf·ft,10 mm,invented book p. 1"
    assert (
        findings_of("ten millimeter socket on the cover bolts and they get ninety foot pounds", specs, "past-strength")
        == []
    )


def test_the_tables_size_counts_where_its_value_is_still_to_look_up(findings_of: FindingsOf) -> None:
    specs = "cover bolts,,torque,,10 mm socket,invented book p. 1"
    (found,) = findings_of("the cover bolts get ninety foot pounds", specs, "past-strength")
    assert found.severity == "hold" and "10 mm" in found.message


def test_the_thread_of_the_table_counts(findings_of: FindingsOf) -> None:
    specs = "cover bolts,,torque,,,invented book p. 1,M6"
    (found,) = findings_of("the cover bolts get ninety foot pounds", specs, "past-strength")
    assert "M6" in found.message


def test_far_under_where_the_joint_must_hold(findings_of: FindingsOf) -> None:
    (found,) = findings_of(
        "seventeen socket on the caliper bracket bolts and they get five newton meters", "", "past-strength"
    )
    assert found.severity == "query"
    assert findings_of("seventeen socket on the cover bolts and they get five newton meters", "", "past-strength") == []


def test_a_pair_counts_once(findings_of: FindingsOf) -> None:
    said = (
        "ten millimeter socket on the cover bolts and they get ninety foot pounds, "
        "that's a hundred and twenty two newton meters"
    )
    assert len(findings_of(said, "", "past-strength")) == 1
