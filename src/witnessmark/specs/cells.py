"""Cells of a CSV file with the row and column they stand in, whatever spreadsheet saved it."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from witnessmark.errors import InputError
from witnessmark.nearest import not_known
from witnessmark.size_limit import check_file

REQUIRED = ("item", "property", "value", "source")
OPTIONAL = ("also_called", "tool_size", "thread")
_COLUMNS = (*REQUIRED, *OPTIONAL)
_DELIMITERS = {",": "comma", ";": "semicolon", "\t": "tab"}


@dataclass(frozen=True, slots=True)
class Cells:
    """One row of a table.

    file: the file's name. row: line of the file on which the row starts, from 1. comma_decimals: see `read_printed`.
    """

    file: str
    row: int
    comma_decimals: bool
    cells: dict[str, str]

    def __getitem__(self, column: str) -> str:
        return self.cells.get(column, "")

    def error(self, column: str, problem: str, remedy: str) -> InputError:
        """What is wrong with one cell, with the place where a person finds it."""
        return InputError(f"{self.file} row {self.row}, column {column}", problem, remedy)


def read_cells(path: Path) -> Iterator[Cells]:
    """Rows of one table that hold anything, below the header.

    UTF-8 and UTF-16 with or without a byte order mark, else Windows-1252. The delimiter is the one that the header
    uses; where it is not the comma, the comma may be the decimal mark. Raises InputError where the file cannot be
    read or is too large, its header lacks a column or has an unknown one, or a row has more or fewer cells than the header.
    """
    text = _decode(path)
    lines = text.splitlines()
    if not lines or not lines[0].strip():
        remedy = f"write the columns {', '.join(REQUIRED)} in its first line"
        raise InputError(f"{path.name} row 1", "the table has no header", remedy)
    delimiter = _delimiter(path.name, lines[0])
    rows = _numbered_rows(path.name, text, delimiter)
    columns = _columns(path.name, next(rows)[1])
    for row, cells in rows:
        if any(cell.strip() for cell in cells):
            yield Cells(path.name, row, delimiter != ",", _by_column(path.name, row, columns, cells))


def _decode(path: Path) -> str:
    try:
        check_file(path, path.name, "a specification table")
        data = path.read_bytes()
    except OSError as why:
        problem = f"the table cannot be read ({why.strerror})"
        raise InputError(path.name, problem, "check that the file is there and open to you") from None
    encodings = ["utf-8-sig", "cp1252"]
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        encodings = ["utf-16"]
    elif b"\0" in data[:64]:
        encodings = ["utf-16-le" if data[1:2] == b"\0" else "utf-16-be"]
    for encoding in encodings:
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
    raise InputError(path.name, "the table is not text", "save it from the spreadsheet as CSV, UTF-8")


def _delimiter(file: str, header: str) -> str:
    used = [delimiter for delimiter in _DELIMITERS if delimiter in header]
    if len(used) > 1:
        names = " and ".join(_DELIMITERS[delimiter] for delimiter in used)
        raise InputError(f"{file} row 1", f"{names} both stand in the header", "part the columns with commas only")
    return used[0] if used else ","


def _numbered_rows(file: str, text: str, delimiter: str) -> Iterator[tuple[int, list[str]]]:
    # Strict, because a quote that is never closed would swallow every row after it.
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    start = 1
    try:
        for cells in reader:
            yield start, cells
            start = reader.line_num + 1
    except csv.Error as why:
        remedy = "close every quotation mark, and double one that is part of a text"
        raise InputError(f"{file} row {start}", f"the row cannot be read ({why})", remedy) from None


def _columns(file: str, header: list[str]) -> list[str]:
    columns = ["_".join(name.casefold().replace("-", " ").replace("_", " ").split()) for name in header]
    where = f"{file} row 1"
    for name in filter(None, columns):
        if name not in _COLUMNS:
            remedy = f"rename or delete it; columns are {', '.join(_COLUMNS)}"
            raise InputError(where, not_known(f"column {name!r}", name, _COLUMNS), remedy)
        if columns.count(name) > 1:
            raise InputError(where, f"column {name!r} stands twice", "delete one of them")
    missing = [name for name in REQUIRED if name not in columns]
    if missing:
        raise InputError(where, f"column {missing[0]!r} is missing", f"add it; a table needs {', '.join(REQUIRED)}")
    return columns


def _by_column(file: str, row: int, columns: list[str], cells: list[str]) -> dict[str, str]:
    while len(cells) > len(columns) and not cells[-1].strip():
        cells = cells[:-1]
    if len(cells) != len(columns):
        too_many = len(cells) > len(columns)
        remedy = "put a text that holds the delimiter in quotation marks" if too_many else "leave a cell empty, not out"
        raise InputError(f"{file} row {row}", f"the row has {len(cells)} cells, the header {len(columns)}", remedy)
    for column, cell in zip(columns, cells, strict=True):
        if not column and cell.strip():
            raise InputError(
                f"{file} row {row}",
                f"{cell.strip()[:40]!r} stands under no column name",
                "name the column in the header",
            )
    return dict(zip(columns, cells, strict=True))
