"""How fully a step is told, and what becomes of one that is hardly told. All narrations are invented."""

import pytest
from narration import procedure_of, speech_of

from witnessmark.procedure.find import survey
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.steps import done_in_one_go
from witnessmark.procedure.telling import chance, marks, weights
from witnessmark.reading.sightings import find_sightings
from witnessmark.specs.table import SpecTable

AFTERWARDS = " | and this is where nothing at all is said of any work for a while" * 3


def _spoken(said: str) -> Spoken:
    speech = speech_of(said)
    return Spoken(speech, tuple(find_sightings(speech, SpecTable(()))), ())


def _chance(said: str) -> float:
    spoken = _spoken(said + AFTERWARDS)
    return chance(spoken, done_in_one_go(spoken, survey(spoken).tasks)[0])


@pytest.mark.parametrize(
    ("fuller", "slighter"),
    [
        ("pull the cover off the gearbox with both hands", "pull the cover off"),
        ("slide the chain guard mounting plate back", "slide the plate back"),
        ("undo the clamp and pull the hose off the pump", "pull the hose off"),
        ("remove the belt guard first", "remove the belt guard first and people never would if they could help it"),
    ],
)
def test_what_tells_more_is_likelier_a_step(fuller: str, slighter: str) -> None:
    assert _chance(fuller) > _chance(slighter)


def test_a_step_hardly_told_is_joined_to_the_nearer_neighbour_over_a_long_pause() -> None:
    pause = "| " * 5
    said = f"undo the four bolts on the gearbox flange with the big wrench {pause} lift the plate {pause}"
    steps = procedure_of(said + AFTERWARDS).steps
    assert len(steps) == 1
    assert steps[0].text.endswith("lift the plate.")


def test_a_full_step_stands_by_itself_over_the_same_pause() -> None:
    pause = "| " * 5
    said = f"undo the four bolts on the gearbox flange with the big wrench {pause} lift the plate off the dowels with a helper"
    assert len(procedure_of(said + AFTERWARDS).steps) == 2


def test_what_is_done_every_so_often_is_not_told_as_done_again() -> None:
    texts = [step.text for step in procedure_of("rinse the strainer | rinse the strainer once a month").steps]
    assert not any("and rinse it" in text for text in texts)


def test_all_that_is_marked_has_a_weight_and_is_at_most_a_few() -> None:
    spoken = _spoken("new washer on the plug | four nuts , thirteen | cover off , springs out , cap , washer , pin")
    for group in done_in_one_go(spoken, survey(spoken).tasks):
        found = marks(spoken, group)
        assert set(found) <= set(weights())
        assert all(0 <= value <= 3 for value in found.values())
