"""Values against their rows: each likely cause, and what is right."""

import pytest
from conftest import FindingsOf

SPECS = """
bracket bolts,,torque,22 N·m,13 mm,invented book p. 1
pinch bolts,,torque,60 N·m,17 mm,invented book p. 2
cover screws,,torque,8.5 N·m,10 mm,invented book p. 3
hub bolts,,torque,15 lbf·ft,14 mm,invented book p. 4
lid screws,,torque,3 N·m,7 mm,invented book p. 4
carrier bolts,,torque,40 N·m,15 mm,invented book p. 5
"""

WRONG = [
    # said, likely cause
    ("the pinch bolts get sixty foot pounds", "unit"),
    ("the lid screws get three foot pounds", "unit"),  # 2.2 lbf·ft is cut off or rounded to 2
    ("the hub bolts get fifty foot pounds", "sound alike"),
    ("the cover screws get five point eight newton meters", "turned round"),
    ("the cover screws get eighty five newton meters", "decimal"),
    ("the bracket bolts get forty newton meters", "carrier bolts"),
    ("the bracket bolts get eleven newton meters", "half"),
    ("the bracket bolts get twenty seven newton meters", "differs"),
    ("the pinch bolts get tightened to sixteen", "sound alike"),
]
OTHER_KINDS = """
brake rotor,rotor,diameter,280 mm,,invented book p. 6
coolant,,capacity,5.6 L,,invented book p. 7
"""
RIGHT = [
    "the bracket bolts get twenty two newton meters",
    "the bracket bolts get sixteen foot pounds",
    "the bracket bolts get thirty no sorry twenty two newton meters",
    "do not go to sixty newton meters on the bracket bolts",
    "the cover screws get 8.5 newton meters",
    "the lid screws get two foot pounds",
]


@pytest.mark.parametrize(("said", "cause"), WRONG)
def test_a_wrong_value_is_a_hold(findings_of: FindingsOf, said: str, cause: str) -> None:
    (found,) = findings_of(said, SPECS, "value")
    assert found.severity == "hold" and cause in (found.cause or "")
    assert found.row is not None and found.fix is not None and found.fix.caption


@pytest.mark.parametrize("said", RIGHT)
def test_a_right_value(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, SPECS, "value") == []


def test_a_slip_of_the_tongue_in_another_kind_is_a_hold(findings_of: FindingsOf) -> None:
    (found,) = findings_of("the coolant takes six point five litres", OTHER_KINDS, "value")
    assert found.severity == "hold" and "turned round" in (found.cause or "")


def test_what_is_of_another_order_was_said_of_something_else(findings_of: FindingsOf) -> None:
    assert findings_of("the rotor wants half a millimeter to the pad", OTHER_KINDS, "value") == []
    assert findings_of("the rotor wants 260 millimeters across", OTHER_KINDS, "value")


MEASURED = """
run capacitor,,capacitance,5 µF,,invented book p. 8
main winding,,resistance,62–70 Ω,,invented book p. 8
rear tyre,back tyre,pressure,225 kPa,,invented book p. 9
thermostat opening temperature,,temperature,82 °C,,invented book p. 9
"""
WRONG_BARE = [
    "meter on the main winding and the sheet wants it between ninety five and ninety eight",
    "the label on the run capacitor says it should be fifteen microfarads",
    "air up the rear tyre and it wants forty eight",
    "the thermostat opens at a hundred and eighty degrees celsius",
]
RIGHT_BARE = [
    "meter on the main winding and the sheet wants it between sixty two and seventy",
    "the main winding is forty one ohms and the sheet wants sixty two to seventy",
    "air up the rear tyre and it wants thirty three",
    "the thermostat opens at a hundred and eighty degrees fahrenheit",
]


@pytest.mark.parametrize("said", WRONG_BARE)
def test_a_wrong_value_of_another_kind_is_seen_but_not_held_where_its_unit_was_not_said(
    findings_of: FindingsOf, said: str
) -> None:
    found = findings_of(said, MEASURED, "value")
    assert found and (found[0].severity == "query" or "farads" in said or "celsius" in said)


@pytest.mark.parametrize("said", RIGHT_BARE)
def test_a_right_value_of_another_kind(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, MEASURED, "value") == []


def test_a_bare_figure_that_is_the_size_of_the_rows_tool_is_no_hold(findings_of: FindingsOf) -> None:
    said = "the bracket bolts get twenty two newton meters | now the pinch bolts and then seventeen on the pinch bolts"
    assert all(found.severity != "hold" for found in findings_of(said, SPECS, "value"))
    said = said.replace("seventeen", "sixteen")
    assert [found.severity for found in findings_of(said, SPECS, "value")] == ["hold"]
