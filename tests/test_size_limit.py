"""A file that is too large to be what it should be is refused before it is read."""

from pathlib import Path

import pytest

from witnessmark.errors import InputError
from witnessmark.project import read_project
from witnessmark.proof.decisions import read_decisions
from witnessmark.size_limit import LARGEST
from witnessmark.specs.table import read_tables


def hole(path: Path) -> Path:
    """A file of 200 MB that takes no room on the disk."""
    with path.open("wb") as file:
        file.truncate(200_000_000)
    return path


@pytest.mark.parametrize(
    ("name", "read", "what"),
    [
        ("specs.csv", lambda path: read_tables([path]), "a specification table"),
        ("repair.toml", lambda path: read_project(path.parent), "a project's settings"),
        ("decisions.toml", lambda path: read_decisions(path.parent), "a list of decisions"),
    ],
)
def test_too_large_a_file_is_refused_in_one_line(tmp_path, name, read, what):
    path = hole(tmp_path / name)
    with pytest.raises(InputError) as refused:
        read(path)
    assert (
        str(refused.value)
        == f"{name}: 200 MB is too large for {what} (at most 20 MB); check that it is the file you mean"
    )


def test_a_file_of_the_largest_size_is_read(tmp_path):
    path = tmp_path / "specs.csv"
    path.write_bytes(b"item,property,value,source\n".ljust(LARGEST, b"\n"))
    assert read_tables([path]).rows == ()
    path.write_bytes(b"item,property,value,source\n".ljust(LARGEST + 1, b"\n"))
    with pytest.raises(InputError, match="too large"):
        read_tables([path])
