"""Whatever stands in a project's tables and settings, it is read or refused in one line."""

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import given
from hypothesis import strategies as st

from witnessmark.errors import InputError
from witnessmark.project import read_project
from witnessmark.proof.decisions import read_decisions
from witnessmark.specs.table import read_tables

HEADER = "item,also_called,property,value,tool_size,source\n"
CELLS = (
    "drain plug", "", ",", ";", "torque", "capacity", "torqe", "35 N·m", "30-36 N·m", "30 N·m + 90°", "12 mm", "DOT 4", "0W-20", '"', '""', "\n", "\r",
    "\0", "min ", "then", "/", "9" * 5000, "1e999", "-", "½", "°", "Manual p. 4", "\ufeff",
)  # fmt: skip
LINES = (
    'title = "T"', 'captions = "captions.vtt"', 'captions = "../x"', 'specs = ["specs.csv"]', "specs = 3", "[machine]", "[heard]", "[links]",
    'units = ["N·m"]',
    '"a" = "b"', "[[decision]]", 'check = "value"', 'said = "fifty"', 'decision = "keep"', 'decision = "value"', 'value = ""', "value = 1979-05-27", "x = nan",
    "[description]",
    "limit = 5000", "limit = 99999999999999999999", "a.b.c = 1", "[[machine]]", "x = " + "[" * 2000, '"""', "#", "=", "video = '''", "\x00", "é",
)  # fmt: skip
TOML = st.lists(st.sampled_from(LINES) | st.text(max_size=8), max_size=12).map("\n".join)


def read_or_refused(name: str, data: bytes, read: Callable[[Path], object]) -> None:
    with TemporaryDirectory() as folder:
        for each, content in (("captions.vtt", b"WEBVTT\n"), ("specs.csv", HEADER.encode()), (name, data)):
            (Path(folder) / each).write_bytes(content)
        try:
            read(Path(folder))
        except InputError as error:
            assert "\n" not in str(error)


def _table(folder: Path) -> object:
    return read_tables([folder / "specs.csv"])


@given(st.lists(st.sampled_from(CELLS) | st.text(max_size=6), max_size=20), st.sampled_from(["", ","]))
def test_any_table(cells: list[str], between: str) -> None:
    read_or_refused("specs.csv", (HEADER + between.join(cells)).encode("utf-8", "replace"), _table)


@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    read_or_refused("specs.csv", data, _table)
    read_or_refused("repair.toml", data, read_project)
    read_or_refused("decisions.toml", data, read_decisions)


@given(TOML)
def test_any_settings(text: str) -> None:
    read_or_refused("repair.toml", text.encode("utf-8", "replace"), read_project)


@given(TOML)
def test_any_decisions(text: str) -> None:
    read_or_refused("decisions.toml", text.encode("utf-8", "replace"), read_decisions)
