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
    ("undo the four nuts | well i took those nuts off with the fuel bowl still full", "Drain the fuel bowl"),
    ("remove the chain cover | i've just pulled the cover off with no rag in there", "rag in place"),
    ("lift off the rubber boot | i lifted the boot before i had tagged the breaker", "Tag the breaker"),
    (
        "slacken the tensioner | i had the tensioner slack before the locking pin was in on my first try",
        "Fit the locking pin",
    ),
    ("remove the oil filter | i should've had the oil drained out before this", "Drain the oil"),
    ("jack up the van | what i should have done is cracked the wheel nuts", "wheel nuts"),
    ("remove the two bolts | i oughta broke that fuel line loose while it was still bolted down", "fuel line"),
    (
        "fit the oil seal | i just did something dumb i drove the seal in so now the bearing first then the seal",
        "Fit the bearing",
    ),
]
SAID_IN_PASSING = [
    "he should have bought a new one before it broke",
    "i should have worn gloves",
    "check the belt before you start the engine",
    "i forgot my coffee",
    "you should have two of these",
    "tighten the first bolt before the second",
    "we did the other side with the engine still on the stand",
    "i drained the oil with the engine still warm",
    "i took it off with no trouble at all",
    "i ought to look at the belt before the winter",
    "i checked the oil before i had the coffee",
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
