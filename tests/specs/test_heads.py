"""What the size of a head, key or bit can mean."""

from decimal import Decimal

import pytest

from witnessmark.specs.heads import threads_of
from witnessmark.specs.threads import fastener_rows


def sizes(system: str, size: str, drive: str | None = None) -> list[str]:
    return list(dict.fromkeys(use.thread.size for use in threads_of(system, Decimal(size), drive)))  # type: ignore[arg-type]


SAID_FOUND = """
mm 7 hex head        M4 M5
mm 8 hex head        M5 M6
mm 10 hex head       M6 M8
mm 12 hex head       M8
mm 13 hex head       M8 M10
mm 14 hex head       M10
mm 15 hex head       M10 M12
mm 16 hex head       M10 M12
mm 17 hex head       M10 M12 M14
mm 18 hex head       M12 M14
mm 19 hex head       M12 M14
mm 5.5 hex head      M3
mm 4 key             M5 M6
mm 5 key             M6 M8
mm 8 key             M10 M12
mm 12 12-point head  M10 M12
in 0.4375 hex head   1/4
in 0.438 hex head    1/4
in 0.5625 hex head   3/8
in 0.375 key         7/16 1/2 5/8
T 20 -               M4
T 30 -               M6
T 45 -               M8 M10
E 12 -               M8 M10
PH 1 -               M2 #2 M2.5 #4 M3
PZ 3 -               #12 M6 1/4 M8
"""


@pytest.mark.parametrize("line", SAID_FOUND.strip().splitlines())
def test_head_size(line: str) -> None:
    said, found = line[:21].split(maxsplit=2), line[21:].split()
    drive = None if said[2].strip() == "-" else said[2].strip()
    assert sizes(said[0], said[1], drive) == found


def test_an_open_drive_is_the_widest_reading() -> None:
    assert set(sizes("mm", "8", "hex head")) | set(sizes("mm", "8", "key")) <= set(sizes("mm", "8"))


def test_the_drive_of_a_bit_is_settled_by_its_letters() -> None:
    assert sizes("T", "25", "key") == sizes("T", "25")


@pytest.mark.parametrize(("system", "size"), [("mm", "9.5"), ("mm", "7.9"), ("in", "0.4"), ("T", "26"), ("XZN", "8")])
def test_an_unlisted_size_says_nothing(system: str, size: str) -> None:
    assert threads_of(system, Decimal(size)) == ()


def test_every_pair_is_listed_once_a_standard() -> None:
    rows = [
        (row["system"], row["size"], row["thread"], row["drive"], row["standard"]) for row in fastener_rows("heads")
    ]
    assert len(set(rows)) == len(rows)


def test_uses_come_smallest_thread_first() -> None:
    for row in fastener_rows("heads"):
        if "/" in row["size"]:
            continue
        diameters = [use.thread.diameter for use in threads_of(row["system"], Decimal(row["size"]))]
        assert diameters == sorted(diameters)
