"""Sizes of tools: what is written beside system, size and drive."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.specs.tool_sizes import parse_tool_size, parse_tool_sizes, same_size
from witnessmark.specs.written import Unreadable

SIZES = {
    "10 mm": ("mm", "10", None),
    "10mm": ("mm", "10", None),
    "5.5 mm": ("mm", "5.5", None),
    "21 mm deep socket": ("mm", "21", "hex"),
    "32 mm pin spanner": ("mm", "32", None),
    "8 mm hex": ("mm", "8", "key"),
    "8 mm Allen": ("mm", "8", "key"),
    "Allen 8 mm": ("mm", "8", "key"),
    "8 mm hex key": ("mm", "8", "key"),
    "8 mm hex head": ("mm", "8", "hex"),
    "10 mm triple square": ("mm", "10", "triple square"),
    "5.5 mm slotted": ("mm", "5.5", "slot"),
    "7/16 in": ("in", "0.4375", None),
    "1/2 in": ("in", "0.5", None),
    '1/2"': ("in", "0.5", None),
    "1/2-inch": ("in", "0.5", None),
    "1 1/4 in": ("in", "1.25", None),
    "1/4 in hex": ("in", "0.25", "key"),
    "T20": ("T", "20", "torx"),
    "T-20": ("T", "20", "torx"),
    "Torx T20": ("T", "20", "torx"),
    "TORX® 20": ("T", "20", "torx"),
    "T20H": ("T", "20", "torx"),
    "E14": ("E", "14", "external torx"),
    "external Torx E14": ("E", "14", "external torx"),
    "TP25": ("TP", "25", "torx"),
    "Torx Plus T25": ("TP", "25", "torx"),
    "PH2": ("PH", "2", "cross"),
    "Phillips #2": ("PH", "2", "cross"),
    "No. 2 Phillips": ("PH", "2", "cross"),
    "PZ2": ("PZ", "2", "cross"),
    "JIS 2": ("JIS", "2", "cross"),
    "XZN 10": ("XZN", "10", "triple square"),
    "M10 XZN": ("XZN", "10", "triple square"),
    "P2": ("P", "2", "pentalobe"),
    "#1 square": ("R", "1", "square"),
}


@pytest.mark.parametrize(("written", "expected"), SIZES.items(), ids=list(SIZES))
def test_size(written: str, expected: tuple[str, str, str | None]) -> None:
    size = parse_tool_size(written)
    assert (size.system, size.size, size.drive) == (expected[0], Decimal(expected[1]), expected[2])
    assert size.printed == written


@pytest.mark.parametrize("written", ["", "10", "socket", "0 mm", "300 mm", "13/15 mm", "1/0 in", "T200", "10 kg"])
def test_no_size(written: str) -> None:
    with pytest.raises(Unreadable):
        parse_tool_size(written)


CELLS = {
    "10 mm or 3/8 in": ["10 mm", "3/8 in"],
    "13 mm and 15 mm": ["13 mm", "15 mm"],
    "13 mm/15 mm": ["13 mm", "15 mm"],
    "10 mm, T20": ["10 mm", "T20"],
    "PH2 or 6 mm slotted": ["PH2", "6 mm slotted"],
    "pin spanner": [],
    "": [],
}


@pytest.mark.parametrize(("written", "expected"), CELLS.items(), ids=list(CELLS))
def test_cell_of_sizes(written: str, expected: list[str]) -> None:
    assert [size.printed for size in parse_tool_sizes(written)] == expected


SAME = {
    ("10 mm", "10mm socket"): True,
    ("10 mm", "12 mm"): False,
    ("8 mm", "8 mm hex"): True,
    ("8 mm socket", "8 mm hex"): False,
    # Common practice: these pairs take each other's wrench, the others do not.
    ("19 mm", "3/4 in"): True,
    ("8 mm", "5/16 in"): True,
    ("11 mm", "7/16 in"): False,
    ("13 mm", "1/2 in"): False,
    ("1/2 in", "0.5 in"): True,
    ("T20", "Torx 20"): True,
    ("T20", "E20"): False,
    ("T20", "20 mm"): False,
    ("PH2", "PZ2"): False,
}


@pytest.mark.parametrize(("pair", "expected"), SAME.items(), ids=map(" and ".join, SAME))
def test_same_size(pair: tuple[str, str], expected: bool) -> None:
    a, b = map(parse_tool_size, pair)
    assert same_size(a, b) is expected
    assert same_size(b, a) is expected


@settings(deadline=None)
@given(st.text(max_size=40) | st.text('0123456789/ .-#mintTEPHZ"orand,', max_size=40))
def test_any_text_is_read_or_refused(written: str) -> None:
    try:
        sizes = parse_tool_sizes(written)
    except Unreadable as why:
        assert why.problem
        assert why.remedy
    else:
        assert all(size.size >= 0 for size in sizes)
