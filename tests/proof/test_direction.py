"""Turning direction against the thread. Every "said" stands above what is to be found in it."""

import pytest
from conftest import FindingsOf

from witnessmark.data import read_rows

SPECS = """
left pedal,,torque,38 N·m,15 mm,invented book p. 1
fan nut,left-hand thread fan nut,torque,40 N·m,32 mm,invented book p. 2
lid bolt,cover bolt,torque,20 N·m,13 mm,invented book p. 3
"""

WRONG = [
    # said, severity, what is right
    ("this is a left hand thread remember so this one winds in clockwise", "hold", "anticlockwise"),
    ("it has a left-handed thread, so it undoes anticlockwise", "hold", "clockwise"),
    ("it's a reverse thread so turn it clockwise to tighten it", "hold", "anticlockwise"),
    ("that is a normal thread so you loosen it clockwise", "hold", "anticlockwise"),
    ("regular thread on this so it's righty loosey", "hold", "anticlockwise"),
    ("now the fan nut thirty two millimeter and it tightens clockwise", "hold", "anticlockwise"),
    ("undo the fan nut counterclockwise", "hold", "clockwise"),
    ("this one has a left hand thread so to get it out you turn it counterclockwise", "hold", "clockwise"),
    ("the acetylene fitting goes on clockwise to tighten", "query", "anticlockwise"),
    ("thirteen on the lid bolt and you loosen the lid bolt clockwise", "query", "anticlockwise"),
    ("loosen the lid bolt by turning it to the right", "query", "anticlockwise"),
    (
        "now the lid bolt in the middle of it, thirteen mil socket on it and it's clockwise to come off",
        "query",
        "anticlockwise",
    ),
]

RIGHT = [
    "this is a left hand thread so this one winds in anticlockwise",
    "it's a left hand thread so clockwise undoes it",
    "that one is not a left hand thread so you undo it anticlockwise",
    "normal thread so counterclockwise to loosen, lefty loosey",
    "the lid bolt goes in clockwise and the fan nut tightens anticlockwise",
    "the left one is the awkward one it's backwards so you undo the lid bolt clockwise",
]

SILENT = [
    # another place to look from, no thread, a warning, somebody else, taken back, denied
    "seen from behind the lid bolt loosens clockwise",
    "turn the shaft clockwise and undo the lid bolt",
    "it's a bayonet, so turn the pump clockwise to let go of it",
    "this is a left hand thread and I watched some lad hang off it going anticlockwise to loosen it",
    "it's a left hand thread so do not turn it clockwise to tighten it",
    "it's a left hand thread so it tightens clockwise no sorry anticlockwise",
    "turn the screw anticlockwise until you feel it drop and then tighten it",
    "the mower blade bolt comes off clockwise on some of these",
    "turn the adjusters clockwise to take up the slack",
    "the wire goes to the left of the lid bolt before you tighten it",
    "turn left at the lights",
]


@pytest.mark.parametrize(("said", "severity", "right"), WRONG)
def test_direction_against_the_thread(findings_of: FindingsOf, said: str, severity: str, right: str) -> None:
    found = findings_of(said, SPECS, "direction")
    assert [(each.severity, each.expected) for each in found] == [(severity, right)]


@pytest.mark.parametrize("said", RIGHT + SILENT)
def test_nothing_is_found(findings_of: FindingsOf, said: str) -> None:
    assert findings_of(said, SPECS, "direction") == []


def test_the_thread_column_of_the_table_counts(findings_of: FindingsOf) -> None:
    specs = "rotor nut,,torque,60 N·m,19 mm,invented book p. 4,M12x1.25 left-hand"
    (found,) = findings_of("the rotor nut goes on clockwise and tightens up", specs, "direction")
    assert (found.severity, found.expected, found.item) == ("hold", "anticlockwise", "rotor nut")


def test_what_was_said_earlier_of_the_thread_is_remembered(findings_of: FindingsOf) -> None:
    captions = """
    the spindle nut on this side is a left hand thread
    the washer comes off and it all gets a clean
    a bit of grease on there and a wipe with the rag and a look at the bearing
    which is fine so that can stay and the shaft is straight as well as far as i can see
    and then the spindle nut goes back on and you tighten the spindle nut clockwise
    """
    (found,) = findings_of(captions, "", "direction")
    assert (found.severity, found.expected) == ("hold", "anticlockwise")


def test_every_joint_names_its_source() -> None:
    for row in read_rows("left_hand_threads.csv"):
        assert row["hand"] in ("always", "sometimes") and row["source"], row
