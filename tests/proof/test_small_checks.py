"""Unit said short, order, promises, hazards, wear."""

import pytest
from conftest import FindingsOf


@pytest.mark.parametrize(
    ("said", "full"),
    [
        ("torque the wheel nuts to ninety pounds", "90 lbf·ft"),
        ("the cover screws get three newtons", "3 N·m"),
    ],
)
def test_a_unit_said_short(findings_of: FindingsOf, said: str, full: str) -> None:
    (found,) = findings_of(said, "", "unit-short")
    assert (found.severity, found.expected) == ("note", full)


@pytest.mark.parametrize(
    "said", ["torque the wheel nuts to ninety foot pounds", "it weighs about ninety pounds so get help with it"]
)
def test_a_unit_said_whole_or_of_no_torque(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, "", "unit-short") == []


def test_order(findings_of: FindingsOf) -> None:
    (found,) = findings_of("i should've greased the splines before i put that up\nand that is that", "", "order")
    assert found.severity == "query" and found.fix is not None and found.fix.question


PROMISE = "i'll put a link to the gasket kit down below"


def test_a_promise_with_nothing_behind_it(findings_of: FindingsOf) -> None:
    (found,) = findings_of(PROMISE, "", "owed")
    assert found.severity == "note" and "gasket kit" in found.message


def test_a_promise_kept(findings_of: FindingsOf) -> None:
    extra = '[links]\n"gasket kit" = "https://example.org/gasket-kit"'
    assert findings_of(PROMISE, "", "owed", extra) == []


HAZARD = "now the jack goes under the crossmember and up she goes and off with the wheel"


def test_a_hazard_without_a_word(findings_of: FindingsOf) -> None:
    found = findings_of(HAZARD, "", "hazard", '[machine]\nkind = "car"')
    assert any("Raised vehicle" in each.message for each in found)
    assert {each.severity for each in found} <= {"note", "query"}


def test_a_hazard_that_is_spoken(findings_of: FindingsOf) -> None:
    said = "the jack goes under the crossmember and be careful never get under it without stands"
    assert not any(
        "Raised vehicle" in each.message for each in findings_of(said, "", "hazard", '[machine]\nkind = "car"')
    )


PADS = "brake pads,pad lining,minimum thickness,2 mm,,invented book p. 1"


def test_worn_past_the_limit(findings_of: FindingsOf) -> None:
    (found,) = findings_of("i measured the brake pads and i got one millimeter on the brake pads", PADS, "worn")
    assert found.severity == "note" and "2 mm" in (found.expected or "")


@pytest.mark.parametrize(
    "said",
    [
        "i measured the brake pads and i got four millimeters on the brake pads",
        "i measured the brake pads and i got one millimeter so they are scrap",
        "i measured the brake pads and i got one millimeter\nthat's had it so a new set goes in",
    ],
)
def test_not_worn_or_called_so(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, PADS, "worn") == []
