"""How large a file may be that is read whole."""

from pathlib import Path

from witnessmark.errors import InputError

LARGEST = 20_000_000
"""Bytes: more than a day of captions with a time for each word, or a hundred thousand rows of a table."""


def check_file(path: Path, where: str, what: str) -> None:
    """Raise InputError where a file is too large for what it should be, OSError where it cannot be looked at.

    where: what the error calls the file. what: "captions", "a specification table".
    """
    check_size(path.stat().st_size, where, what)


def check_size(size: int, where: str, what: str) -> None:
    """The same of so many bytes."""
    if size > LARGEST:
        problem = f"{size / 1e6:.0f} MB is too large for {what} (at most {LARGEST // 1_000_000} MB)"
        raise InputError(where, problem, "check that it is the file you mean")
