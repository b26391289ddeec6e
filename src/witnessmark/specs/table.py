"""Reading specification tables: CSV files with one row a specification, as a spreadsheet saves them."""

import builtins
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from witnessmark.errors import InputError
from witnessmark.quantity import Amount, TableRow
from witnessmark.specs.cells import Cells, read_cells
from witnessmark.specs.printed import Printed, read_printed, same_amounts
from witnessmark.specs.properties import (
    PropertyRule,
    kind_of_dimension,
    likely_meant,
    property_name,
    property_names,
    rule_for,
)
from witnessmark.specs.thread_cells import parse_thread, says_left_hand
from witnessmark.specs.tool_sizes import ToolSize, parse_tool_sizes
from witnessmark.specs.written import Unreadable
from witnessmark.units import dimension

UNNAMED = "unnamed at"
"""How a thing is called that had no name when its value was said, until a person writes the name."""
LISTED = 5  # of the rows without a value


@dataclass(frozen=True, slots=True)
class SpecRow:
    """One specification.

    property: as written, case folded. rule: what it means. printed: the value cell as it stands. amounts: stages in
    order; empty where the value is words. alternatives: other intervals after `or`, whichever comes first. grade: a
    grade, or a value given in words (`hand tight`), which no number is checked against. to_look_up: the value cell is
    empty. tool_sizes: every size named. left_hand: None where the row does not say.
    """

    origin: TableRow
    item: str
    also_called: tuple[str, ...]
    property: str
    rule: PropertyRule
    printed: str
    amounts: tuple[Amount, ...] = ()
    alternatives: tuple[Amount, ...] = ()
    grade: str | None = None
    to_look_up: bool = False
    tool_sizes: tuple[ToolSize, ...] = ()
    left_hand: bool | None = None
    thread: str | None = None

    @builtins.property
    def names(self) -> tuple[str, ...]:
        """The item and its other names."""
        return (self.item, *self.also_called)

    @builtins.property
    def tool_size(self) -> ToolSize | None:
        """The size named first; None where the row names none."""
        return self.tool_sizes[0] if self.tool_sizes else None

    @builtins.property
    def kind(self) -> str | None:
        """Kind of mention in facts.json that speaks of this row; None where there is none."""
        if self.rule.kind or not self.amounts:
            return self.rule.kind
        return kind_of_dimension(dimension(self.amounts[0].unit))


@dataclass(frozen=True)
class SpecTable:
    """All specifications of a project, in the order of its tables.

    notes: what is odd in them and needs no mending, one line each.
    """

    rows: tuple[SpecRow, ...]
    notes: tuple[str, ...] = ()

    def items(self) -> tuple[str, ...]:
        """Names of all items, each once, in table order."""
        return tuple(dict.fromkeys(row.item for row in self.rows))

    def rows_of(self, item: str, property: str | None = None) -> tuple[SpecRow, ...]:
        """Rows of one item, by its name in the item column. property: as the table has it, or the name of its rule."""
        wanted = same_name(item)
        of_item = (row for row in self.rows if same_name(row.item) == wanted)
        return tuple(row for row in of_item if property in (None, row.property, row.rule.name))

    def left_hand(self, item: str) -> bool | None:
        """Whether an item's thread is left-hand, by any of its rows; None where none says so."""
        return next((row.left_hand for row in self.rows_of(item) if row.left_hand is not None), None)


def same_name(name: str) -> str:
    """A name as it is compared: case folded, hyphens and spaces alike."""
    return " ".join(name.casefold().replace("-", " ").split())


def read_tables(paths: Sequence[Path]) -> SpecTable:
    """Read the tables of a project as one.

    Raises InputError that names file, row and column where a table cannot be read whole, where rows contradict each
    other, and where one name stands for two items of one property.
    """
    notes: list[str] = []
    by_property: dict[tuple[str, str], list[SpecRow]] = {}
    spelling: dict[str, str] = {}
    read: list[SpecRow] = []
    for path in paths:
        for cells in read_cells(path):
            row = _read_row(cells, notes)
            item = spelling.setdefault(same_name(row.item), row.item)
            read.append(replace(row, item=item))
            _add(by_property.setdefault((item, row.property), []), notes, read[-1])
    kept = {id(row) for rows in by_property.values() for row in rows}
    rows = [row for row in read if id(row) in kept]
    _check_names(rows)
    return SpecTable(tuple(rows), (*notes, *_unknown_properties(rows), *_still_empty(rows)))


def _unknown_properties(rows: Sequence[SpecRow]) -> Iterator[str]:
    """A line for each property without a rule: its rows are checked by the dimension of their values, or not at all."""
    seen: set[str] = set()
    for row in rows:
        if row.rule.kind or row.property in seen:
            continue
        seen.add(row.property)
        checked = f"only as {row.kind}, by its unit" if row.kind else "against nothing that is said"
        known = ", ".join(property_names())
        yield f"{_place(row)}: {row.property!r} is no known property and is checked {checked}; known are {known}"


def _still_empty(rows: Sequence[SpecRow]) -> Iterator[str]:
    """A line for each table that has rows without a value."""
    for file in dict.fromkeys(row.origin.file for row in rows if row.to_look_up):
        empty = [row for row in rows if row.to_look_up and row.origin.file == file]
        have = "1 row has" if len(empty) == 1 else f"{len(empty)} rows have"
        named = ", ".join(f"{row.item} ({row.property})" for row in empty[:LISTED]) + ", ..." * (len(empty) > LISTED)
        remedy = "look them up in the manual" if len(empty) > 1 else "look it up in the manual"
        yield f"{file}: {have} no value yet and nothing is checked against {'it' if len(empty) == 1 else 'them'}: {named}; {remedy}"


def _split_names(cell: str) -> tuple[str, ...]:
    names = (" ".join(name.split()) for name in cell.split(";"))
    return tuple(dict.fromkeys(name for name in names if name))


def _read_row(cells: Cells, notes: list[str]) -> SpecRow:
    item = " ".join(cells["item"].split())
    if not item:
        raise cells.error("item", "the item has no name", "write the name that the video uses for it")
    if item.startswith(UNNAMED) and cells["value"].strip():
        problem = f"nothing that is said is called {item!r}, so its value would not be checked"
        raise cells.error("item", problem, "write the name that the video uses for it, or delete the row")
    names = tuple(name for name in _split_names(cells["also_called"]) if same_name(name) != same_name(item))
    origin = TableRow(cells.file, cells.row, " ".join(cells["source"].split()))
    if not origin.source and cells["value"].strip():
        notes.append(f"{cells.file} row {cells.row}: no source is cited for {item}")
    name, rule = _read_property(cells)
    sizes = _read_sizes(cells, notes)
    thread, left_hand = _read_thread(cells, rule, (item, *names))
    printed = " ".join(cells["value"].split())
    try:
        value = read_printed(printed, rule, cells.comma_decimals) if printed else Printed()
    except Unreadable as why:
        raise cells.error("value", why.problem, why.remedy) from None
    if meant := likely_meant(name, {dimension(amount.unit) for amount in value.amounts}):
        raise cells.error("property", f"{name!r} is not a known property", _instead(meant))
    return SpecRow(
        origin,
        item,
        names,
        name,
        rule,
        printed,
        value.amounts,
        value.alternatives,
        grade=value.words,
        to_look_up=not printed,
        tool_sizes=sizes,
        left_hand=left_hand,
        thread=thread,
    )


def _read_property(cells: Cells) -> tuple[str, PropertyRule]:
    name = property_name(cells["property"])
    if not name:
        raise cells.error("property", "no property is given", "write one such as torque, capacity, grade or gap")
    if meant := likely_meant(name):
        raise cells.error("property", f"{name!r} is not a known property", _instead(meant))
    rule = rule_for(name)
    if not rule.kind and not re.search("[0-9]", cells["value"]) and cells["value"].strip():
        problem = f"{name!r} is not a known property and its value is not a measured one"
        remedy = f"write grade for a value in words; known are {', '.join(property_names())}"
        raise cells.error("property", problem, remedy)
    return name, rule


def _instead(meant: str) -> str:
    return f"write {meant!r} if that is meant, or another word; known are {', '.join(property_names())}"


def _read_sizes(cells: Cells, notes: list[str]) -> tuple[ToolSize, ...]:
    cell = " ".join(cells["tool_size"].split())
    try:
        sizes = parse_tool_sizes(cell)
    except Unreadable as why:
        raise cells.error("tool_size", why.problem, why.remedy) from None
    if cell and not sizes:
        notes.append(f"{cells.file} row {cells.row}: {cell!r} in column tool_size names no size, so none is checked")
    return sizes


def _read_thread(cells: Cells, rule: PropertyRule, names: tuple[str, ...]) -> tuple[str | None, bool | None]:
    named_left = True if any(map(says_left_hand, names)) else None
    thread, left_hand = None, named_left
    for column, cell in (("thread", cells["thread"]), ("value", cells["value"] if rule.name == "thread" else "")):
        if not cell.strip():
            continue
        try:
            read = parse_thread(cell)
        except Unreadable as why:
            raise cells.error(column, why.problem, why.remedy) from None
        if named_left and read.left_hand is False:
            problem = "the thread is right-hand and the item's name says left-hand"
            raise cells.error(column, problem, "mend one of the two")
        thread, left_hand = read.name or thread, left_hand if read.left_hand is None else read.left_hand
    return thread, left_hand


def _place(row: SpecRow) -> str:
    return f"{row.origin.file} row {row.origin.row}"


def _add(rows: list[SpecRow], notes: list[str], row: SpecRow) -> None:
    """Add a row to those of its item and property, unless one before it says the same."""
    for place, earlier in enumerate(rows):
        if _stand_together(earlier, row):
            continue
        what = f"the {row.property} of {row.item}"
        if row.to_look_up or _say_the_same(earlier, row):
            notes.append(f"{_place(row)}: {what} stands already in {_place(earlier)}, which counts")
            return
        if earlier.to_look_up:
            notes.append(f"{_place(earlier)}: {what} stands in {_place(row)}, which counts")
            rows[place] = row
            return
        raise InputError(
            f"{_place(row)}, column value",
            f"{what} is {row.printed} here and {earlier.printed} in {_place(earlier)}",
            "look both up and delete the wrong row, or give the two items different names",
        )
    rows.append(row)


def _stand_together(first: SpecRow, second: SpecRow) -> bool:
    """A minimum and a maximum, or an interval in months and one in km, are two specifications."""
    if len(first.amounts) != 1 or len(second.amounts) != 1:
        return False
    one, other = first.amounts[0], second.amounts[0]
    if dimension(one.unit) != dimension(other.unit):
        return first.rule.alternatives
    return {one.bound, other.bound} == {"min", "max"}


def _say_the_same(first: SpecRow, second: SpecRow) -> bool:
    grades = {(row.grade or "").casefold() for row in (first, second)}
    return len(grades) == 1 and same_amounts(first.amounts, second.amounts)


def _check_names(rows: list[SpecRow]) -> None:
    """A name that two items of one property share would leave it open which of the two a said value belongs to."""
    seen: dict[tuple[str, str], SpecRow] = {}
    for row in rows:
        for name in row.names:
            earlier = seen.setdefault((same_name(name), row.property), row)
            if earlier.item != row.item:
                column = "item" if name == row.item else "also_called"
                raise InputError(
                    f"{_place(row)}, column {column}",
                    f"the name {name!r} stands for the {row.property} of {row.item!r} here "
                    f"and of {earlier.item!r} in {_place(earlier)}",
                    "take the name from one of them, or add a word that tells them apart",
                )
