"""How amounts are printed. The precision of converted torques is that of workshop manuals: common practice."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.house_style import inches, plain, shown
from witnessmark.quantity import Amount, Bound
from witnessmark.units import units


def amount(low: str, high: str, unit: str, bound: Bound = "exact") -> Amount:
    return Amount(Decimal(low), Decimal(high), unit, bound)


@pytest.mark.parametrize(
    ("x", "unit", "printed"),
    [
        ("35", "N·m", "35 N·m (26 lbf·ft)"),
        ("8", "N·m", "8 N·m (71 lbf·in)"),
        ("2.5", "N·m", "2.5 N·m (22 lbf·in)"),
        ("0.5", "N·m", "0.5 N·m (4.4 lbf·in)"),
        ("22", "lbf·ft", "22 lbf·ft (30 N·m)"),
        ("120", "lbf·in", "120 lbf·in (13.6 N·m)"),
        ("300", "N·m", "300 N·m (221 lbf·ft)"),
        ("3.5", "kgf·m", "3.5 kgf·m (34 N·m, 25 lbf·ft)"),
        ("1.1", "mm", "1.1 mm (0.043 in)"),
        ("372", "mm", "372 mm (14.6 in)"),
        ("0.044", "in", "0.044 in (1.12 mm)"),
        ("4.2", "L", "4.2 L (4.4 qt)"),
        ("230", "kPa", "230 kPa (33 psi)"),
        ("2000", "kPa", "2000 kPa (290 psi)"),
        ("100", "km", "100 km (62 mi)"),
        ("15000", "km", "15,000 km (9300 mi)"),
        ("85", "°C", "85 °C (185 °F)"),
        ("-18", "°C", "-18 °C (0 °F)"),
        ("90", "°", "90°"),
        ("1", "turn", "1 turn"),
        ("2", "turn", "2 turns"),
        ("38", "$", "$38"),
        ("34", "Ω", "34 Ω"),
    ],
)
def test_one_figure(x: str, unit: str, printed: str) -> None:
    assert shown([amount(x, x, unit)]) == printed


def test_range() -> None:
    assert shown([amount("30", "36", "N·m", "range")]) == "30–36 N·m (22–27 lbf·ft)"


def test_a_range_across_the_limit_is_told_in_one_unit() -> None:
    assert shown([amount("18", "22", "N·m", "range")]) == "18–22 N·m (13–16 lbf·ft)"


def test_limit() -> None:
    assert shown([amount("22.0", "22.0", "mm", "min")]) == "min 22.0 mm (0.866 in)"


def test_stages() -> None:
    stages = [amount("30", "30", "N·m"), amount("60", "60", "N·m"), amount("90", "90", "°")]
    assert shown(stages) == "30 N·m (22 lbf·ft), then 60 N·m (44 lbf·ft), then 90°"


def test_plain() -> None:
    assert plain(amount("30", "36", "N·m", "range")) == "30–36 N·m"


@given(st.sampled_from(list(units())), st.decimals(0, 1_000_000, places=2))
def test_every_figure_can_be_shown(unit: str, x: Decimal) -> None:
    assert shown([Amount(x, x, unit)]).startswith(plain(Amount(x, x, unit)))


@pytest.mark.parametrize(
    ("size", "marked"),
    [("0.15625", "5/32"), ("0.5625", "9/16"), ("1.125", "1 1/8"), ("1", "1"), ("0.3", "0.3"), ("0.015625", "1/64")],
)
def test_a_size_in_inches_is_told_as_it_is_marked(size: str, marked: str) -> None:
    assert inches(Decimal(size)) == marked
