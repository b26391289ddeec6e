"""Fasteners and seals for one use."""

import pytest
from conftest import FindingsOf

REUSED = [
    "put the old cotter pin back in",
    "now the same split pin goes back through the hole",
    "i'm going to reuse the crush washer",
    "you can use the crush washer again",
    "pop the old crush washer back on the plug",
    "bend the old cotter pin over again",
]
FINE = [
    "put the new cotter pin in and bend it over",
    "do not reuse the crush washer",
    "never put the old cotter pin back in",
    "take the old cotter pin out and throw it away",
    "pull the old cotter pin out and a new one goes back in",
    "some people reuse the crush washer",
    "put the old cover back on with the bolts",
    "the old crush washer was stuck to the pan",
    "the cotter pin goes back in its bag",
]


@pytest.mark.parametrize("said", REUSED)
def test_used_again(findings_of: FindingsOf, said: str) -> None:
    (found,) = findings_of(said, "", "one-time")
    assert found.severity == "query"


@pytest.mark.parametrize("said", FINE)
def test_nothing_is_found(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, "", "one-time") == []


def test_often_for_one_use_is_a_note(findings_of: FindingsOf) -> None:
    (found,) = findings_of("reuse the caliper bracket bolts", "", "one-time")
    assert found.severity == "note"


def test_a_table_row_that_says_so(findings_of: FindingsOf) -> None:
    specs = "hatch seal,single use hatch seal,capacity,1 L,,invented book p. 1"
    (found,) = findings_of("put the old hatch seal back in", specs, "one-time")
    assert (found.severity, found.item) == ("query", "hatch seal")
