"""Properties: every rule names kinds and dimensions that exist, and a name with more words finds its rule."""

import pytest

from witnessmark.specs.properties import kind_of_dimension, likely_meant, property_name, property_rules, rule_for
from witnessmark.units import units

# Kinds of a mention that a specification can speak of, as facts.json has them.
KINDS = {
    *("torque", "capacity", "grade", "pressure", "gap", "thickness", "depth", "length", "angle", "mass"),
    *("temperature", "voltage", "resistance", "speed", "interval", "distance", "duration"),
    *("current", "capacitance", "flow", "count"),
}


def test_kinds_and_dimensions_exist() -> None:
    dimensions = {unit.dimension for unit in units().values()}
    for rule in property_rules().values():
        assert rule.kind in KINDS
        assert set(rule.dimensions) <= dimensions
        assert rule.text != bool(rule.dimensions)
    assert {kind_of_dimension(dimension) for dimension in dimensions} - {None} <= KINDS


RULES = {
    "torque": ("torque", None),
    "Tightening  torque": ("torque", None),
    "electrode gap": ("gap", None),
    "minimum thickness": ("minimum thickness", "min"),
    "Min. thickness": ("minimum thickness", "min"),
    "minimum lining thickness": ("thickness", "min"),
    "maximum runout": ("clearance", "max"),
    "belt tension": ("belt tension", None),
    "maximum belt tension": ("maximum belt tension", "max"),
}


@pytest.mark.parametrize(("name", "expected"), RULES.items(), ids=list(RULES))
def test_rule(name: str, expected: tuple[str, str | None]) -> None:
    rule = rule_for(property_name(name))
    assert (rule.name, rule.bound) == expected


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("torqe", "torque"),
        ("resistence", "resistance"),
        ("presure", "pressure"),
        ("minimum thicknes", "minimum thickness"),
    ],
)
def test_slip_of_the_finger(written: str, meant: str) -> None:
    assert likely_meant(written) == meant


@pytest.mark.parametrize("written", ["tork", "torc", "trq"])
def test_a_slip_that_the_value_bears_out(written: str) -> None:
    assert likely_meant(written, {"torque"}) == "torque"
    assert likely_meant(written, {"mass"}) is None


@pytest.mark.parametrize(
    ("word", "dimension"),
    [
        ("spacing", "length"),
        ("pitch", "length"),
        ("stroke", "length"),
        ("lash", "length"),
        ("dia", "length"),
        ("travel limit", "length"),
        ("preload", "torque"),
        ("depression", "pressure"),
        ("camber", "angle"),
    ],
)
def test_a_word_of_its_own_whatever_its_value(word: str, dimension: str) -> None:
    assert likely_meant(word, {dimension}) is None


@pytest.mark.parametrize("word", ["torque", "cold pressure", "stroke", "belt tension", "current", "power", "flow"])
def test_word_of_its_own(word: str) -> None:
    assert likely_meant(word) is None
