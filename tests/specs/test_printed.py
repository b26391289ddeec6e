"""Reading value cells: printed_values.txt has what is printed beside what is read; more forms are made up at random."""

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from witnessmark.quantity import Amount
from witnessmark.specs.printed import Printed, read_printed
from witnessmark.specs.properties import PropertyRule, property_name, rule_for
from witnessmark.specs.written import Unreadable
from witnessmark.units import units

ANY = PropertyRule("any", stages=True, negative=True)
CASES = [
    tuple(part.strip() for part in line.split(" | "))
    for line in (Path(__file__).parent / "printed_values.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]


def found(printed: Printed) -> str:
    """What was read, as printed_values.txt writes it."""
    shown = [" + ".join(map(one, printed.amounts)), *(f"or {one(each)}" for each in printed.alternatives)]
    return "; ".join(filter(None, [*shown, f"words: {printed.words}" if printed.words else ""]))


def one(amount: Amount) -> str:
    figures = {"exact": "{0.low}", "range": "{0.low}..{0.high}", "min": ">= {0.low}", "max": "<= {0.high}"}
    return f"{figures[amount.bound].format(amount)} {amount.unit}"


@pytest.mark.parametrize(("name", "printed", "expected"), CASES, ids=[" ".join(case[:2]) for case in CASES])
def test_value_cell(name: str, printed: str, expected: str) -> None:
    rule = rule_for(property_name(name))
    if not expected.startswith("!"):
        assert found(read_printed(printed, rule)) == expected
        return
    with pytest.raises(Unreadable) as refused:
        read_printed(printed, rule)
    assert expected.removeprefix("! ") in refused.value.problem
    assert refused.value.remedy


@pytest.mark.parametrize(
    ("printed", "expected"),
    [
        ("2,5 N·m", "2.5 N·m"),
        ("2.5 N·m", "2.5 N·m"),
        ("0,044 in", "0.044 in"),
        ("30,5–36,25 N·m", "30.5..36.25 N·m"),
        ("20 N·m, dann 90°", None),
        ("20 N·m, 90°", "20 N·m + 90 °"),
        ("15,000 km", None),
        ("1.500 rpm", None),
        ("1500 rpm", "1500 rpm"),
        ("1 500,5 mm", "1500.5 mm"),
    ],
)
def test_table_with_decimal_commas(printed: str, expected: str | None) -> None:
    if expected:
        assert found(read_printed(printed, ANY, comma_decimals=True)) == expected
    else:
        with pytest.raises(Unreadable):
            read_printed(printed, ANY, comma_decimals=True)


# Labels whose figures stand before them; money stands behind its sign.
LABELS = st.sampled_from([unit.label for unit in units().values() if unit.dimension != "money"])
FIGURES = st.decimals(min_value=0, max_value=99999, places=2) | st.integers(0, 99999).map(Decimal)


@st.composite
def printed_amounts(draw: st.DrawFn) -> tuple[str, Amount]:
    """One amount and a form in which a manual could print it."""
    low, label = draw(FIGURES), draw(LABELS)
    form = draw(st.sampled_from(["exact", "range", "min", "max"]))
    space = draw(st.sampled_from([" ", "\u00a0", "\u202f"]))
    if form == "exact":
        about = draw(st.sampled_from(["", "about ", "approx. ", "~"]))
        return f"{about}{low}{space}{label}", Amount(low, low, label)
    if form == "range":
        high = low + draw(FIGURES.filter(bool))
        to = draw(st.sampled_from(["-", "–", " – ", " to ", " ~ ", f"{space}{label} to "]))
        return f"{low}{to}{high}{space}{label}", Amount(low, high, label, "range")
    before = {
        "min": ["min ", "min. ", "minimum ", "≥ ", "≥", ">= ", "at least "],
        "max": ["max ", "≤", "<= ", "up to "],
    }
    after = {"min": [" min", " min.", " minimum", " or more"], "max": [" max", " max.", " maximum", " or less"]}
    bound = "min" if form == "min" else "max"
    if draw(st.booleans()):
        return f"{draw(st.sampled_from(before[bound]))}{low}{space}{label}", Amount(low, low, label, bound)
    return f"{low}{space}{label}{draw(st.sampled_from(after[bound]))}", Amount(low, low, label, bound)


@settings(deadline=None)
@given(printed_amounts())
def test_every_form_reads_back(made: tuple[str, Amount]) -> None:
    printed, amount = made
    assert read_printed(printed, ANY).amounts == (amount,)


@settings(deadline=None)
@given(st.lists(printed_amounts(), min_size=2, max_size=4), st.sampled_from([", then ", " + ", "; ", " then ", ", "]))
def test_stages_read_back_in_order(made: list[tuple[str, Amount]], then: str) -> None:
    read = read_printed(then.join(printed for printed, _ in made), ANY)
    assert read.amounts == tuple(amount for _, amount in made)


@settings(deadline=None)
@given(FIGURES.filter(bool), st.sampled_from([1, 2, 3]))
def test_restated_in_another_unit_as_rounding_allows(figure: Decimal, places: int) -> None:
    # 1 lbf·ft is 12 lbf·in by definition.
    again = round(figure * 12, places)
    assume(again > 0)
    assert len(read_printed(f"{figure} lbf·ft ({again} lbf·in)", ANY).amounts) == 1
    with pytest.raises(Unreadable, match="not the same amount"):
        read_printed(f"{figure} lbf·ft ({again * 2 + 2} lbf·in)", ANY)


CELLS = st.text(max_size=60) | st.text("0123456789.,/-–+±()=<≥° Nmlbfti·kgthenora\"'%~:;", max_size=60)
RULES = st.sampled_from([ANY, *map(rule_for, ("torque", "grade", "interval", "minimum thickness", "angle"))])


@settings(deadline=None)
@given(CELLS, RULES, st.booleans())
def test_any_text_is_read_or_refused(cell: str, rule: PropertyRule, comma_decimals: bool) -> None:
    try:
        read = read_printed(cell, rule, comma_decimals)
    except Unreadable as why:
        assert why.problem
        assert why.remedy
    else:
        assert all(amount.low <= amount.high and amount.unit in units() for amount in read.amounts)


@pytest.mark.parametrize(
    "piece", ["1 ", "(", "1/", "30 N·m, ", "then ", "-", "stage 1: ", "9", "or ", "35 N·m (26 lbf·ft) "]
)
def test_long_cells_are_read_or_refused(piece: str) -> None:
    with pytest.raises(Unreadable):
        read_printed(piece * 20_000 + "?", ANY)
