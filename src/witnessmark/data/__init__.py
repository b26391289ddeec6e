"""Facts of the trade as tables: every row or file names its source."""

import csv
from importlib.resources import files
from io import StringIO


def read_text(name: str) -> str:
    """Content of one packaged data file, by its path under data/."""
    return files(__name__).joinpath(name).read_text(encoding="utf-8")


def read_rows(name: str) -> list[dict[str, str]]:
    """Rows of one packaged CSV file, header as keys, cells stripped."""
    return [
        {key: (cell or "").strip() for key, cell in row.items()} for row in csv.DictReader(StringIO(read_text(name)))
    ]
