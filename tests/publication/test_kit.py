"""*Said* above *found*: what a kit list takes from talk and what it leaves out."""

import pytest

from witnessmark.language.speech import read_speech
from witnessmark.publication.kit import Kit, find_kit
from witnessmark.reading.read import read
from witnessmark.specs.table import SpecTable
from witnessmark.transcript import parse_transcript


def kit_of(*said: str) -> Kit:
    cues = "\n\n".join(f"00:00:{n * 5:02}.000 --> 00:00:{n * 5 + 4:02}.000\n{text}" for n, text in enumerate(said))
    speech = read_speech(parse_transcript(f"WEBVTT\n\n{cues}\n".encode(), "test.vtt"))
    return find_kit(read(speech, SpecTable(())), SpecTable(()))


def names(things: object) -> list[str]:
    return [each.name for each in things]  # type: ignore[attr-defined]


def test_tools_are_listed_with_the_sizes_said_before_them():
    kit = kit_of("You need a 14 mm combination wrench, a 10 mm deep socket and a 12 mm deep socket.")
    sizes = {tool.name: tool.size for tool in kit.tools}
    assert sizes == {"combination wrench": "14 mm", "deep socket": "10, 12 mm"}


def test_a_size_without_a_tool_goes_with_the_usual_one():
    kit = kit_of("Those bolts have a 13 mm head.", "The screws are T20.")
    assert {tool.name: tool.size for tool in kit.tools} == {"socket": "13 mm", "Torx bit": "T20"}


def test_a_thing_named_twice_is_listed_once_under_its_longer_name():
    kit = kit_of("Remove the brake caliper.", "Hang the caliper up, the caliper is heavy.")
    assert names(kit.parts) == ["brake caliper"]


def test_words_of_place_stay_with_the_name():
    kit = kit_of("Remove the rear brake caliper from the car.")
    assert names(kit.parts) == ["rear brake caliper"]


@pytest.mark.parametrize(
    "said",
    [
        "It sounds like a hammer in there.",
        "Do not use a hammer on it.",
        "There is no need for a hammer here.",
    ],
)
def test_a_tool_named_in_passing_is_not_listed(said: str):
    assert "hammer" not in names(kit_of(said).tools)


def test_a_feature_of_a_part_is_no_part():
    assert names(kit_of("Clean the thread and clean the thread again.").parts) == []


@pytest.mark.parametrize(
    ("said", "bought"),
    [
        ("Fit two new copper washers on the banjo fitting.", ["copper washers"]),
        ("Press the new valve cover gasket into its groove.", ["valve cover gasket"]),
        ("You need a new set of brake pads.", ["brake pads"]),
        ("Fit the new pump. Put the drive belt back on.", []),
        ("This is the new kind of workshop, and the drive belt comes off.", []),
        ("Nearly new. The drive belt comes off and the drive belt goes on.", []),
    ],
)
def test_what_is_told_to_be_new_is_to_be_bought(said: str, bought: list[str]):
    assert names(kit_of(said).bought) == bought


def test_nothing_said_gives_nothing():
    assert kit_of("Hello and welcome.") == Kit((), (), (), ())
