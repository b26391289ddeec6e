"""Units: labels, printed forms, conversion and rounding. Comparisons with outside figures stand in tests/published."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.units import convert, dimension, label_of, rounded_to, si, units


@pytest.mark.parametrize(
    ("label", "measures"),
    [("lbf·ft", "torque"), ("thou", "length"), ("°F", "temperature"), ("°", "angle"), ("$", "money")],
)
def test_dimension(label: str, measures: str) -> None:
    assert dimension(label) == measures


def test_an_unknown_label_is_a_key_error_that_says_where_labels_stand() -> None:
    for wrong in (
        lambda: dimension("furlong"),
        lambda: convert(Decimal(1), "mm", "furlong"),
        lambda: si(Decimal(1), "furlong"),
    ):
        with pytest.raises(KeyError, match=r"furlong.*units\.toml"):
            wrong()


@pytest.mark.parametrize(
    ("one", "other"), [("N·m", "mm"), ("N·m", "Wh"), ("°", "°C"), ("$", "£"), ("rpm", "Hz"), ("lb", "lbf")]
)
def test_what_measures_something_else_is_refused(one: str, other: str) -> None:
    with pytest.raises(ValueError, match="cannot be converted"):
        convert(Decimal(1), one, other)


@pytest.mark.parametrize(
    ("printed", "label"),
    [
        ("Nm", "N·m"),
        ("N m", "N·m"),
        ("N-m", "N·m"),
        ("N⋅m", "N·m"),
        ("ft-lb", "lbf·ft"),
        ("ft. lbs.", "lbf·ft"),
        ("lb ft", "lbf·ft"),
        ("in-lb", "lbf·in"),
        ("kg-m", "kgf·m"),
        ("kgf/cm2", "kgf/cm²"),
        ("PSI", "psi"),
        ("μm", "µm"),
        ("Ω", "Ω"),
        ("cc", "cm³"),
        ("fl. oz", "fl oz"),
        ("°C", "°C"),
        ("mΩ", "mΩ"),
        ("MΩ", "MΩ"),
    ],
)
def test_printed_forms(printed: str, label: str) -> None:
    assert label_of(printed) == label


def test_every_label_is_its_own_printed_form() -> None:
    assert [label for label in units() if label_of(label) != label] == []


def test_an_unknown_printed_form_is_a_key_error() -> None:
    with pytest.raises(KeyError, match="foot-stones"):
        label_of("foot-stones")


@pytest.mark.parametrize(
    ("x", "label", "in_si"),
    [
        ("12", "lbf·in", ("1.3558179483314004", "N·m")),
        ("0.5", "in", ("12.7", "mm")),
        ("10", "mi", ("16.09344", "km")),
        ("2", "turn", ("720", "°")),
        ("212", "°F", ("100", "°C")),
        ("-40", "°F", ("-40", "°C")),
        ("2.3", "bar", ("230", "kPa")),
        ("2", "week", ("1209600", "s")),
        ("38", "$", ("38", "$")),
    ],
)
def test_si(x: str, label: str, in_si: tuple[str, str]) -> None:
    assert si(Decimal(x), label) == (Decimal(in_si[0]), in_si[1])


@given(st.sampled_from(list(units())), st.decimals(-10_000, 10_000, places=3))
def test_there_and_back(label: str, x: Decimal) -> None:
    there, si_label = si(x, label)
    assert abs(convert(there, si_label, label) - x) <= Decimal("1e-20")


@pytest.mark.parametrize(
    ("x", "exponent", "rounded"),
    [("25.5", 0, "26"), ("24.5", 0, "25"), ("-2.5", 0, "-3"), ("0.05", -1, "0.1"), ("125", 1, "130"), ("-0.4", 0, "0")],
)
def test_a_half_is_rounded_away_from_zero(x: str, exponent: int, rounded: str) -> None:
    assert str(rounded_to(Decimal(x), exponent)) == rounded
