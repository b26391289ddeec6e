"""Names of the table that hold a word which can be a verb, and the word for the whole machine; all invented."""

import pytest
from narration import procedure_of, speech_of, value

from witnessmark.procedure import find_procedure


@pytest.mark.parametrize(
    ("said", "item"),
    [
        ("the screws get two newton meters | feed rollers . they were tight", "feed roller screws"),
        ("and two newton meters | clamp ring | it sat well", "clamp ring bolts"),
        ("two newton meters there | drive plate . not a mark on it", "drive plate nuts"),
        ("two newton meters no strap forty", "strap bolt"),
        ("two newton meters | lock collar | still good", "lock collar screw"),
    ],
)
def test_a_word_of_a_name_is_no_verb(said: str, item: str) -> None:
    speech = speech_of(said)
    steps = procedure_of(said, (value(speech, "two newton meters", "torque", "2 N·m", item, "m1"),)).steps
    assert [step.text for step in steps] == [f"Tighten the {item} to 2 N·m."]


def test_a_word_of_a_name_acts_where_its_thing_has_an_article() -> None:
    said = "clamp the ring and two newton meters on the bolts"
    at = value(speech_of(said), "two newton meters", "torque", "2 N·m", "clamp ring bolts", "m1")
    assert [step.text for step in procedure_of(said, (at,)).steps] == [
        "Clamp the clamp ring and tighten the clamp ring bolts to 2 N·m."
    ]


@pytest.mark.parametrize(
    ("kind", "said", "word"),
    [
        ("powered wheelchair", "the chair is heavy | stand it up again", "chair"),
        ("petrol lawnmower", "the mower is on the bench | stand it up again", "mower"),
        ("compact dishwasher", "that washer was loud | stand it up again", "machine"),
    ],
)
def test_the_machine_is_called_as_it_is_called(kind: str, said: str, word: str) -> None:
    steps = find_procedure(speech_of(said), (), (), kind).steps
    assert [step.text for step in steps] == [f"Stand the {word} up again."]
