from decimal import Decimal

import pytest

from witnessmark.publication.kit_csv import spreadsheet_cell
from witnessmark.publication.sizes import joined_sizes
from witnessmark.reading.sizes import SizeSaid


def said(*sizes: tuple[str, str]) -> list[SizeSaid]:
    return [SizeSaid(0, 1, Decimal(size), system) for size, system in sizes]


@pytest.mark.parametrize(
    ("sizes", "printed"),
    [
        ([("14", "mm"), ("10", "mm"), ("14", "mm")], "10, 14 mm"),
        ([("0.4375", "in"), ("1.125", "in"), ("0.5", "in")], "7/16, 1/2, 1 1/8 in"),
        ([("20", "T"), ("15", "T")], "T15, T20"),
        ([("0.5", "in"), ("13", "mm")], "13 mm, 1/2 in"),
        ([("5.5", "mm")], "5.5 mm"),
        ([], None),
    ],
)
def test_sizes_as_a_list_prints_them(sizes, printed):
    assert joined_sizes(said(*sizes)) == printed


@pytest.mark.parametrize("text", ["=1+1", "+cmd", "-2", "@sum"])
def test_no_cell_is_a_formula(text):
    assert spreadsheet_cell(text) == f"'{text}"
