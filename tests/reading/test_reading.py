"""Reading against readable fixtures; said_found.py says how they are written."""

import pytest
from said_found import HERE, Case, cases, read_case, told

OPEN = "open_cases.txt"
FILES = sorted(path.name for path in HERE.glob("*.txt") if path.name != OPEN)


def _marked() -> list[object]:
    passing = [pytest.param(case, id=case.place) for name in FILES for case in cases(name)]
    still_open = [
        pytest.param(case, id=case.place, marks=pytest.mark.xfail(strict=True, reason=case.group))
        for case in cases(OPEN)
    ]
    return passing + still_open


@pytest.mark.parametrize("case", _marked())
def test_said_is_found(case: Case) -> None:
    assert told(case, read_case(case)) == case.found
