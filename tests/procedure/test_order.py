"""Steps that the speaker says belonged earlier."""

import pytest
from narration import procedure_of

DONE_LATE = [
    (
        "jack up the car | remove the wheel | i should have cracked the lug nuts loose before i jacked up the car",
        "lug nuts",
    ),
    ("remove the oil filter | i should have drained the oil first before i took the filter off", "oil"),
    (
        "slide the deck out | now i did that wrong | so do it the right way round and pull the spark plug lead first",
        "spark plug lead",
    ),
]
SAID_IN_PASSING = [
    "he should have bought a new one before it broke",
    "i should have worn gloves",
    "check the belt before you start the engine",
    "i forgot my coffee",
    "you should have two of these",
    "tighten the first bolt before the second",
]


@pytest.mark.parametrize(("said", "about"), DONE_LATE)
def test_the_remark_is_found_and_the_step_moves(said: str, about: str) -> None:
    procedure = procedure_of(said)
    assert len(procedure.order_remarks) == 1
    moved = [step for step in procedure.steps if step.shown_later is not None]
    assert len(moved) == 1
    assert about in moved[0].text
    assert procedure.steps.index(moved[0]) < len(procedure.steps) - 1


@pytest.mark.parametrize("said", SAID_IN_PASSING)
def test_no_remark_where_nothing_belonged_earlier(said: str) -> None:
    procedure = procedure_of(f"remove the belt cover | {said} | fit the belt cover")
    assert procedure.order_remarks == ()
    assert all(step.shown_later is None for step in procedure.steps)
