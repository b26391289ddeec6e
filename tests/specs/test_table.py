"""Reading specification tables. Every table is invented, and stands above what comes of it."""

from decimal import Decimal
from pathlib import Path

import pytest

from witnessmark.errors import InputError
from witnessmark.quantity import Amount, TableRow
from witnessmark.specs.table import SpecTable, read_tables

RECORDINGS = Path(__file__).parents[3] / "shared" / "recordings"
HEADER = "item,also_called,property,value,tool_size,source\n"
DRYER = (
    HEADER
    + "motor bolts,drive bolts; motor mount bolts,torque,8 N·m,10 mm,Marwin book p. 12\n"
    + '"belt, front",drive belt,belt tension,45 N,,Marwin book p. 14\n'
    + 'motor bolts,drive bolts,interval,"15,000 km or 12 months",,Marwin book p. 3\n'
    + "filter cover screws,,torque,hand tight,PH2,Marwin book p. 5\n"
    + "heater plate,,torque,,T20,Marwin book p. 9\n"
    + "gear oil,,grade,GL-5 75W-90,,Marwin book p. 20\n"
    + "fan,fan with left-hand thread,torque,5 N·m,13 mm or 1/2 in,Marwin book p. 21\n"
)


def read(folder: Path, text: str | bytes, name: str = "specs.csv") -> SpecTable:
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_tables([path])


def refusal(folder: Path, text: str | bytes) -> str:
    with pytest.raises(InputError) as refused:
        read(folder, text)
    line = str(refused.value)
    assert "\n" not in line
    return line


def test_rows_as_they_stand(tmp_path: Path) -> None:
    bolts, belt, interval, cover, heater, oil, fan = read(tmp_path, DRYER).rows
    assert bolts.origin == TableRow("specs.csv", 2, "Marwin book p. 12")
    assert bolts.names == ("motor bolts", "drive bolts", "motor mount bolts")
    assert (bolts.property, bolts.kind, bolts.printed) == ("torque", "torque", "8 N·m")
    assert bolts.amounts == (Amount(Decimal(8), Decimal(8), "N·m"),)
    assert bolts.tool_size is not None
    assert (bolts.tool_size.system, bolts.tool_size.size) == ("mm", 10)
    assert (belt.item, belt.property, belt.kind, belt.amounts[0].unit) == ("belt, front", "belt tension", None, "N")
    assert [each.unit for each in (*interval.amounts, *interval.alternatives)] == ["km", "month"]
    assert (cover.amounts, cover.grade, cover.to_look_up) == ((), "hand tight", False)
    assert (heater.amounts, heater.grade, heater.to_look_up, heater.printed) == ((), None, True, "")
    assert (oil.amounts, oil.grade, oil.kind) == ((), "GL-5 75W-90", "grade")
    assert [size.printed for size in fan.tool_sizes] == ["13 mm", "1/2 in"]
    assert (fan.left_hand, bolts.left_hand) == (True, None)


def test_asking_a_table(tmp_path: Path) -> None:
    table = read(tmp_path, DRYER)
    assert table.items() == ("motor bolts", "belt, front", "filter cover screws", "heater plate", "gear oil", "fan")
    assert [row.property for row in table.rows_of("Motor Bolts")] == ["torque", "interval"]
    assert [row.printed for row in table.rows_of("motor bolts", "torque")] == ["8 N·m"]
    assert table.rows_of("drive bolts") == ()
    assert table.left_hand("fan") is True
    assert table.left_hand("motor bolts") is None


def test_several_tables_are_one(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text(HEADER + "fan,,torque,5 N·m,,book\n", encoding="utf-8")
    (tmp_path / "b.csv").write_text(HEADER + "belt,,belt tension,45 N,,book\n", encoding="utf-8")
    table = read_tables([tmp_path / "b.csv", tmp_path / "a.csv"])
    assert [(row.item, row.origin.file, row.origin.row) for row in table.rows] == [
        ("belt", "b.csv", 2),
        ("fan", "a.csv", 2),
    ]


SMALL = "item,property,value,source\nmotor bolts,torque,8 N·m,Büchlein\n"
SAVED = {
    "UTF-8": SMALL.encode(),
    "UTF-8 with a byte order mark": SMALL.encode("utf-8-sig"),
    "UTF-16": SMALL.encode("utf-16"),
    "UTF-16, tabs": SMALL.replace(",", "\t").encode("utf-16"),
    "UTF-16 without a mark": SMALL.encode("utf-16-le"),
    "Windows-1252": SMALL.encode("cp1252"),
    "CRLF": SMALL.replace("\n", "\r\n").encode(),
    "CR alone": SMALL.replace("\n", "\r").encode(),
    "no last line end": SMALL.rstrip().encode(),
    "blank lines at the end": (SMALL + "\n,,,\n\n").encode(),
    "columns in another order": "value,Source,ITEM,Property\n8 N·m,Büchlein,motor bolts,Torque\n".encode(),
    "columns without a name": "item,property,value,source,,\nmotor bolts,torque,8 N·m,Büchlein,,\n".encode(),
    "semicolons": SMALL.replace(",", ";").encode(),
    "semicolons and decimal commas": "item;property;value;source\nmotor bolts;torque;8,0 N·m;Büchlein\n".encode(),
}


@pytest.mark.parametrize("data", SAVED.values(), ids=SAVED.keys())
def test_however_it_was_saved(tmp_path: Path, data: bytes) -> None:
    (row,) = read(tmp_path, data).rows
    assert (row.item, row.property, row.origin) == ("motor bolts", "torque", TableRow("specs.csv", 2, "Büchlein"))
    assert row.amounts == (Amount(Decimal(8), Decimal(8), "N·m"),)


def test_row_is_the_line_on_which_it_starts(tmp_path: Path) -> None:
    text = HEADER + '\n"motor\nbolts",,torque,8 N·m,,book\nfan,,torque,5 mm,,book\n'
    assert refusal(tmp_path, text).startswith("specs.csv row 5, column value: ")
    assert read(tmp_path, text.replace("5 mm", "5 N·m")).rows[0].item == "motor bolts"


def test_names_between_semicolons_in_a_table_with_semicolons(tmp_path: Path) -> None:
    text = 'item;also_called;property;value;source\nfan;"rotor; blower";torque;5 N·m;book\n'
    assert read(tmp_path, text).rows[0].names == ("fan", "rotor", "blower")


THREADS = {
    "M8": ("M8", None),
    "M10x1.25": ("M10x1.25", None),
    "left-hand": (None, True),
    "M10x1 left-hand": ("M10x1", True),
    "M8 right-hand": ("M8", False),
    "": (None, None),
}


@pytest.mark.parametrize(("cell", "expected"), THREADS.items(), ids=list(THREADS))
def test_thread_column(tmp_path: Path, cell: str, expected: tuple[str | None, bool | None]) -> None:
    (row,) = read(tmp_path, f"item,property,value,thread,source\nfan,torque,5 N·m,{cell},book\n").rows
    assert (row.thread, row.left_hand) == expected


def test_thread_as_a_property(tmp_path: Path) -> None:
    table = read(tmp_path, HEADER + "fan,,torque,5 N·m,,book\nfan,,thread,M10x1 left-hand,,book\n")
    assert (table.rows[1].thread, table.rows[1].grade) == ("M10x1", "M10x1 left-hand")
    assert table.left_hand("fan") is True


ROWS_REFUSED = {
    "no item": (",,torque,8 N·m,,book", ["column item", "no name"]),
    "no property": ("fan,,,8 N·m,,book", ["column property", "no property"]),
    "property by its sound": (
        "fan,,tork,8 N·m,,book",
        ["column property", "'tork'", "'torque'", "known are torque, cap"],
    ),
    "stand-in with a value": ("unnamed at 1:02,,torque,8 N·m,,book", ["column item", "'unnamed at 1:02'", "name"]),
    "misspelt property": ("fan,,torqe,8 N·m,,book", ["column property", "'torqe'", "'torque'"]),
    "unknown property in words": ("fan,,colour,blue,,book", ["column property", "'colour'", "grade"]),
    "unknown property, unknown unit": ("fan,,wobble,8 furlongs,,book", ["column value", "'furlongs'"]),
    "unit does not fit": ("fan,,torque,8 mm,,book", ["column value", "mm is a unit of length", "torque"]),
    "negative torque": ("fan,,torque,-8 N·m,,book", ["column value", "under zero"]),
    "unreadable value": ("fan,,torque,tight enough,,book", ["column value", "not a figure"]),
    "units that disagree": ("fan,,torque,10 N·m (120 lbf·in),,book", ["column value", "not the same amount"]),
    "unreadable size": ("fan,,torque,8 N·m,10,book", ["column tool_size", "without mm, in"]),
    "cells too many": ("fan,,interval,15,000 km,,book", ["row 2", "7 cells", "quotation marks"]),
    "cells too few": ("fan,,torque,8 N·m", ["row 2", "4 cells", "header 6"]),
    "quotation mark never closed": ('fan,,torque,"8 N·m,,book', ["row 2", "close every quotation mark"]),
    "text after a quotation mark": ('"fan" big,,torque,8 N·m,,book', ["row 2", "quotation mark"]),
}


@pytest.mark.parametrize(("row", "told"), ROWS_REFUSED.values(), ids=ROWS_REFUSED.keys())
def test_row_refused(tmp_path: Path, row: str, told: list[str]) -> None:
    line = refusal(tmp_path, HEADER + row + "\n")
    assert [part for part in ["specs.csv row 2", *told] if part not in line] == [], line


def test_thread_refused(tmp_path: Path) -> None:
    header = "item,also_called,property,value,thread,source\n"
    assert "column thread: unknown thread 'M8x1.1'" in refusal(tmp_path, header + "fan,,torque,5 N·m,M8x1.1,book\n")
    row = "fan,left-hand thread fan,torque,5 N·m,right-hand,book\n"
    assert "name says left-hand" in refusal(tmp_path, header + row)


HEADERS_REFUSED = {
    "empty file": ("", ["row 1", "no header"]),
    "blank first line": ("\nitem,property,value,source\n", ["row 1", "no header"]),
    "unknown column": ("item,property,valu,source\n", ["'valu' is not known", "'value'"]),
    "unknown column, nothing near": ("item,property,value,source,xyz\n", ["'xyz' is not known; rename"]),
    "missing column": ("item,property,value\n", ["'source' is missing"]),
    "column twice": ("item,property,value,source,Item\n", ["'item' stands twice"]),
    "comma and semicolon": ("item;property,value;source\n", ["comma and semicolon"]),
    "a figure without a column": ("item,property,value,source,\nfan,torque,5 N·m,book,3\n", ["row 2", "'3'", "header"]),
}


@pytest.mark.parametrize(("text", "told"), HEADERS_REFUSED.values(), ids=HEADERS_REFUSED.keys())
def test_header_refused(tmp_path: Path, text: str, told: list[str]) -> None:
    line = refusal(tmp_path, text)
    assert [part for part in told if part not in line] == [], line


def test_not_a_text_file(tmp_path: Path) -> None:
    assert "not text" in refusal(tmp_path, b"PK\x03\x04" + bytes(range(256)) * 4)
    assert "not text" in refusal(tmp_path, b"item,property\x81\n")
    with pytest.raises(InputError, match="cannot be read"):
        read_tables([tmp_path / "nowhere.csv"])


TWO_ROWS_REFUSED = {
    "two torques": ("fan,,torque,8 N·m,,a\nfan,,torque,9 N·m,,b", ["column value", "8 N·m in specs.csv row 2"]),
    "two torques, capitals": ("fan,,torque,8 N·m,,a\nFan,,Torque,9 N·m,,b", ["column value"]),
    "two torques in two units": ("fan,,torque,8 N·m,,a\nfan,,torque,8 lbf·ft,,b", ["column value"]),
    "a range beside a figure": ("fan,,torque,8 N·m,,a\nfan,,torque,7–9 N·m,,b", ["column value"]),
    "a torque beside an angle": ("fan,,torque,8 N·m,,a\nfan,,torque,90°,,b", ["column value", "90°"]),
    "two grades": ("oil,,grade,0W-20,,a\noil,,grade,5W-30,,b", ["column value", "0W-20"]),
    "one other name for two items": (
        "fan,blower,torque,8 N·m,,a\nrotor,blower,torque,9 N·m,,b",
        ["column also_called", "'blower'", "'fan' in specs.csv row 2"],
    ),
    "other name is another item": (
        "fan,rotor,torque,8 N·m,,a\nRotor,,torque,9 N·m,,b",
        ["column item", "'Rotor'"],
    ),
}


@pytest.mark.parametrize(("rows", "told"), TWO_ROWS_REFUSED.values(), ids=TWO_ROWS_REFUSED.keys())
def test_rows_that_cannot_both_stand(tmp_path: Path, rows: str, told: list[str]) -> None:
    line = refusal(tmp_path, HEADER + rows + "\n")
    assert [part for part in ["specs.csv row 3", *told] if part not in line] == [], line


TWO_ROWS_STAND = {
    "minimum and maximum": "pad,,thickness,min 2 mm,,a\npad,,thickness,max 9 mm,,b",
    "months and km": "fan,,interval,3 months,,a\nfan,,interval,500 km,,b",
    "one name, two properties": "fan,rotor,torque,8 N·m,,a\nblade,rotor,clearance,1 mm,,b",
    "one item, two properties": "fan,,torque,8 N·m,,a\nfan,,clearance,1 mm,,b",
}


@pytest.mark.parametrize("rows", TWO_ROWS_STAND.values(), ids=TWO_ROWS_STAND.keys())
def test_rows_that_both_stand(tmp_path: Path, rows: str) -> None:
    table = read(tmp_path, HEADER + rows + "\n")
    assert (len(table.rows), table.notes) == (2, ())


ONE_COUNTS = {
    "the same again": ("fan,,torque,8 N·m,,a\nfan,,torque,8.0 Nm,,b", "8 N·m", "row 3"),
    "the same in another unit": ("fan,,torque,35 N·m,,a\nfan,,torque,26 lbf·ft,,b", "35 N·m", "row 3"),
    "empty before full": ("fan,,torque,,,a\nfan,,torque,8 N·m,,b", "8 N·m", "row 2"),
    "empty after full": ("fan,,torque,8 N·m,,a\nfan,,torque,,,b", "8 N·m", "row 3"),
}


@pytest.mark.parametrize(("rows", "counts", "noted"), ONE_COUNTS.values(), ids=ONE_COUNTS.keys())
def test_one_of_two_rows_counts_and_the_other_is_noted(tmp_path: Path, rows: str, counts: str, noted: str) -> None:
    table = read(tmp_path, HEADER + rows + "\n")
    assert [row.printed for row in table.rows] == [counts]
    assert [note.startswith(f"specs.csv {noted}: ") for note in table.notes] == [True]


def test_what_is_noted(tmp_path: Path) -> None:
    table = read(tmp_path, HEADER + "cup,,torque,65 N·m,pin spanner,\n")
    assert len(table.notes) == 2
    assert "no source" in table.notes[0]
    assert "'pin spanner'" in table.notes[1]


def test_a_property_that_is_not_known_is_noted_once(tmp_path: Path) -> None:
    rows = "cup,,tension,5 N·m,,a\nfan,,tension,4 N·m,,a\nbelt,,pull,120 N,,a\nlamp,,current,2 A,,a\n"
    by_unit, not_at_all = read(tmp_path, HEADER + rows).notes
    assert by_unit.startswith(
        "specs.csv row 2: 'tension' is no known property and is checked only as torque, by its unit"
    )
    assert not_at_all.startswith("specs.csv row 4: 'pull' is no known property and is checked against nothing")
    assert "known are torque, capacity, grade" in not_at_all


def test_rows_without_a_value_are_told_once_a_table(tmp_path: Path) -> None:
    rows = "".join(f"bolt {i},,torque,,,\n" for i in range(7))
    (note,) = read(tmp_path, HEADER + rows).notes
    assert note.startswith("specs.csv: 7 rows have no value yet and nothing is checked against them: bolt 0 (torque), ")
    assert "bolt 4 (torque), ...; look them up in the manual" in note and "bolt 5" not in note
    (note,) = read(tmp_path, HEADER + "bolt,,torque,,,\n").notes
    assert note.startswith("specs.csv: 1 row has no value yet and nothing is checked against it: bolt (torque); ")


@pytest.mark.skipif(not RECORDINGS.is_dir(), reason="the annotated recordings are not here")
def test_annotated_recordings() -> None:
    paths = sorted(RECORDINGS.glob("*/specs.csv"))
    assert paths
    for path in paths:
        table = read_tables([path])
        assert len(table.rows) == len(path.read_text(encoding="utf-8").splitlines()) - 1
        assert table.notes == ()
        assert all(row.kind for row in table.rows)
