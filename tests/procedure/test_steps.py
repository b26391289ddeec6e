"""Steps from what is said, in sentences of many trades."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from narration import procedure_of, speech_of, value

from witnessmark.procedure import find_procedure
from witnessmark.reading.sightings import find_sightings
from witnessmark.specs.table import SpecTable

HERE = Path(__file__).parent
LINE = re.compile(r"^(said|found)\s+(.*)$")
TALK = re.compile(r"\b(i|i'm|i've|we|we're|my|our|us|me|you're|gonna|wanna|uh|um|okay|guys|gotta)\b", re.IGNORECASE)


def _cases() -> list[tuple[str, str]]:
    lines = [
        found
        for file in sorted(HERE.glob("steps_*.txt"))
        for line in file.read_text(encoding="utf-8").splitlines()
        if (found := LINE.match(line))
    ]
    return [(said[2], found[2]) for said, found in zip(lines[::2], lines[1::2], strict=True)]


@pytest.mark.parametrize(("said", "found"), _cases())
def test_step(said: str, found: str) -> None:
    steps = [step.text for step in procedure_of(said).steps]
    assert steps == ([] if found == "nothing" else [found])


@pytest.mark.parametrize("said", [said for said, _ in _cases()])
def test_no_talk_is_left_in_a_step(said: str) -> None:
    for step in procedure_of(f"uh okay guys {said} you know what i mean").steps:
        assert not TALK.search(step.text)
        assert step.text[0].isupper()
        assert step.text.endswith(".")


def test_the_tool_size_and_the_torque_stand_in_the_step() -> None:
    said = "then the ten mil socket on the cover bolts and tighten the cover bolts to nine newton meters"
    speech = speech_of(said)
    values = [
        value(speech, "ten mil", "tool_size", "10 mm", None, "m1"),
        value(speech, "nine newton meters", "torque", "9 N·m (80 lbf·in)", "cover bolts", "m2"),
    ]
    steps = find_procedure(speech, (), values).steps
    assert any("to 9 N·m (80 lbf·in)" in step.text and "cover bolts" in step.text for step in steps)
    assert {"m2"} <= {mention for step in steps for mention in step.values}


def test_a_torque_without_a_verb_is_a_tightening() -> None:
    speech = speech_of("and those get forty five newton meters")
    values = [value(speech, "forty five newton meters", "torque", "45 N·m (33 lbf·ft)", "axle nuts", "m1")]
    assert [step.text for step in find_procedure(speech, (), values).steps] == [
        "Tighten the axle nuts to 45 N·m (33 lbf·ft)."
    ]


def test_a_quoted_value_is_no_step() -> None:
    speech = speech_of("on my old truck those get forty five newton meters")
    values = [value(speech, "forty five newton meters", "torque", "45 N·m", "axle nuts", "m1", quoted=True)]
    assert find_procedure(speech, (), values).steps == ()


def test_a_recap_makes_no_second_step() -> None:
    speech = speech_of("the axle nuts get forty five newton meters | so once more the axle nuts are 45 newton meters")
    values = [
        value(speech, "forty five newton meters", "torque", "45 N·m", "axle nuts", "m1"),
        value(speech, "45 newton meters", "torque", "45 N·m", "axle nuts", "m2"),
    ]
    steps = find_procedure(speech, (), values).steps
    assert len(steps) == 1
    assert steps[0].values == ("m1", "m2")


def test_what_is_not_to_be_done_is_a_warning_or_a_step_that_says_so() -> None:
    steps = procedure_of(
        "remove the brake caliper and hang it from the spring don't hang the caliper by the brake hose"
    ).steps
    assert "Do not hang the brake caliper by the brake hose." in " ".join(
        [*steps[0].warnings, *(step.text for step in steps)]
    )


def test_nothing_said_is_no_procedure() -> None:
    assert procedure_of("").steps == ()
    assert procedure_of("").chapters == ()


def test_the_same_narration_gives_the_same_procedure() -> None:
    said = " | ".join(said for said, _ in _cases())
    assert procedure_of(said) == procedure_of(said)


@pytest.mark.parametrize(
    ("kind", "shown", "told"),
    [
        ("length", "min 22.0 mm (0.866 in)", "is at least 22.0 mm (0.866 in)"),
        ("length", "max 22.0 mm", "is at most 22.0 mm"),
        ("length", "22.0 mm", "is 22.0 mm"),
        ("minimum thickness", "min 22.0 mm", "against the minimum of 22.0 mm"),
        ("runout", "max 0.05 mm", "is within 0.05 mm"),
    ],
)
def test_a_bound_is_told_as_a_bound(kind: str, shown: str, told: str) -> None:
    """A step that says "22 mm" of a minimum would make a target of it."""
    said = "and the brake disc over here twenty two millimeters on this one"
    values = (value(speech_of(said), "twenty two millimeters", kind, shown, "brake disc", "m1"),)
    steps = find_procedure(speech_of(said), (), values).steps
    assert [step.text for step in steps] == [f"Check {'that ' * told.startswith('is')}the brake disc {told}."]


def test_a_run_through_the_values_at_the_end_makes_no_step_there() -> None:
    said = (
        "fit the spindle nut " + "and this is the bit where nothing much is said at all " * 12 + "| so one more time "
        "the spindle nut forty newton meters"
    )
    speech = speech_of(said)
    values = [value(speech, "forty newton meters", "torque", "40 N·m", "spindle nut", "m1")]
    steps = find_procedure(speech, (), values).steps
    assert [step.start for step in steps if "40 N·m" in step.text] != []
    assert all(step.start < speech.tokens[-1].end - 10 or "spindle nut" in step.items for step in steps)


@pytest.mark.parametrize(
    ("kind", "item"), [("length", "wheel nuts"), ("pressure", "bracket screw"), ("capacity", "boiler flange bolts")]
)
def test_a_value_that_a_thing_cannot_have_is_no_step(kind: str, item: str) -> None:
    speech = speech_of("so you fill that and it takes eleven of those")
    values = (value(speech, "eleven", kind, "11", item, "m1"),)
    assert [step for step in find_procedure(speech, (), values).steps if item in step.text] == []


def test_a_step_of_two_words_is_joined_to_its_neighbour() -> None:
    said = "remove the air filter | then wipe the air filter housing with a rag"
    assert len(procedure_of(said).steps) == 1


def _of_size(said: str, size: str, shown: str, item: str | None, **more: bool) -> list[str]:
    speech = speech_of(said)
    sightings = find_sightings(speech, SpecTable(()))
    values = [replace(value(speech, size, "tool_size", shown, item, "m1"), **more)]
    return [step.text for step in find_procedure(speech, sightings, values).steps]


def test_fasteners_told_by_number_and_size_are_removed_while_things_come_apart() -> None:
    said = (
        "then the rear cowl and there's seven in it and they're a t thirty | and this is where nothing is said at all"
    )
    assert _of_size(said, "t thirty", "T30", "rear cowl screws") == [
        "Remove the seven rear cowl screws with a T30 bit."
    ]


def test_a_number_said_behind_the_size_is_told_too() -> None:
    said = "now the float housing eights all round five of them | " + "and this is where nothing is said at all " * 3
    assert _of_size(said, "eights", "8 mm", "float housing bolts") == ["Remove the five float housing bolts (8 mm)."]


def test_a_size_that_may_be_another_fasteners_is_not_told() -> None:
    said = "four bolts on the gearbox twelve millimeter | " + "and this is where nothing is said at all " * 3
    steps = _of_size(said, "twelve millimeter", "19 mm", "axle nuts", quoted=True, doubtful=True)
    assert steps == ["Remove the four bolts on the gearbox."]


def test_an_amount_poured_into_something_is_a_step() -> None:
    speech = speech_of("now pour three litres into the tub and have a look")
    values = [value(speech, "three litres", "capacity", "3 L", None, "m1")]
    steps = find_procedure(speech, (), values).steps
    assert [step.text for step in steps] == ["Pour 3 L into the tub."]


def test_a_torque_in_doubt_is_told_with_its_doubt_and_only_where_nothing_surer_is() -> None:
    speech = speech_of("the spindle nut gets forty newton meters | and this one gets twenty newton meters")
    sure = value(speech, "forty newton meters", "torque", "40 N·m", "spindle nut", "m1")
    doubtful = replace(
        value(speech, "twenty newton meters", "torque", "25 N·m", "cover screw", "m2"), quoted=True, doubtful=True
    )
    told = find_procedure(speech, (), [sure, doubtful]).steps
    assert [bool(step.warnings) for step in told] == [False, True]
    again = replace(doubtful, item="spindle nut")
    assert not any(step.warnings for step in find_procedure(speech, (), [sure, again]).steps)


def test_what_was_measured_makes_a_step_of_the_rows_limit() -> None:
    speech = speech_of("the brake pad is down to six mil and the book says two is the least")
    measured = replace(value(speech, "six mil", "thickness", "min 2 mm", "brake pad", "m1"), quoted=True, measured=True)
    steps = find_procedure(speech, (), [replace(measured, property="minimum thickness")]).steps
    assert [step.text for step in steps] == ["Check the brake pad against the minimum of 2 mm."]


def test_a_size_told_of_fasteners_elsewhere_is_not_told_of_the_tables_item() -> None:
    said = "four t thirties on the gearbox | " + "and this is where nothing is said at all " * 3
    steps = _of_size(said, "t thirties", "PH2", "flap screws")
    assert steps == ["Remove the four screws on the gearbox."]


@pytest.mark.parametrize(
    ("said", "figure", "item", "told"),
    [
        (
            "so rinse the strainer and do that every three months",
            "three months",
            None,
            "Rinse the strainer every 3 months.",
        ),
        ("grease the zerks | it 's every three months", "three months", None, "Grease the zerks every 3 months."),
        ("remove the strainer and do that every three months", "three months", None, "Remove the strainer."),
        ("the oil every three months", "three months", "oil change", "Replace the oil every 3 months."),
        ("the oil every three months", "three months", "oil", "Change the oil every 3 months."),
        ("the belt every three months", "three months", "belt", ""),
    ],
)
def test_work_told_to_be_done_every_so_often(said: str, figure: str, item: str | None, told: str) -> None:
    found = value(speech_of(said), figure, "interval", "3 months", item, "m1")
    steps = procedure_of(said, [replace(found, property="interval" if item else "")]).steps
    assert [step.text for step in steps if "3 months" in step.text or not item] == ([told] if told else [])


@pytest.mark.parametrize(("verb", "told"), [("put", ["Set the front tires to 24 psi."]), ("found", [])])
def test_a_pressure_that_was_put_in_is_to_be_set(verb: str, told: list[str]) -> None:
    said = f"and i {verb} 24 pounds in the fronts"
    found = replace(
        value(speech_of(said), "24 pounds", "pressure", "24 psi", "front tires", "m1", quoted=True), measured=True
    )
    assert [step.text for step in procedure_of(said, [found]).steps] == told


def test_the_machine_is_called_as_the_settings_call_it() -> None:
    speech = speech_of(
        "take the shaft off of the tractor | a square baler like this is heavy | tractor out of the way | jack it up"
    )
    said = find_procedure(speech, (), (), "hay baler").steps
    assert said[-1].text.endswith("jack up the baler.")


def test_a_step_ends_behind_a_tightening() -> None:
    said = "fit the cover | tighten the cover bolts to ten newton meters and refit the hose on the spigot"
    speech = speech_of(said)
    values = [value(speech, "ten newton meters", "torque", "10 N·m", "cover bolts", "m1")]
    steps = [step.text for step in find_procedure(speech, (), values).steps]
    assert steps[-1] == "Refit the hose on the spigot."
