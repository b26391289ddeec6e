"""Facts of the trade as tables: every row or file names its source."""

import csv
import tomllib
from bisect import bisect_left
from functools import cache
from importlib.resources import files
from io import StringIO
from typing import Any


def read_text(name: str) -> str:
    """Content of one packaged data file, by its path under data/."""
    return files(__name__).joinpath(name).read_text(encoding="utf-8")


def read_rows(name: str) -> list[dict[str, str]]:
    """Rows of one packaged CSV file, header as keys, cells stripped."""
    return [
        {key: (cell or "").strip() for key, cell in row.items()} for row in csv.DictReader(StringIO(read_text(name)))
    ]


@cache
def read_toml(name: str) -> dict[str, Any]:
    """One packaged TOML file, read once: what is given out is shared, so take it as it is."""
    return tomllib.loads(read_text(name))


@cache
def _lines(name: str) -> list[bytes]:
    return files(__name__).joinpath(name).read_bytes().split(b"\n")


def line_of(name: str, word: str) -> list[str] | None:
    """The cells after the word on its line of a packaged table, None where it has no line.

    The table's lines are sorted by bytes, the word first, cells parted by tabs; only the line asked for is read.
    """
    lines, key = _lines(name), word.encode("utf-8", "replace") + b"\t"
    place = bisect_left(lines, key)
    if place == len(lines) or not lines[place].startswith(key):
        return None
    return lines[place].decode("utf-8").split("\t")[1:]
