"""The thing of a step told in full, by the fasteners that sizes and torques are of."""

import pytest
from narration import procedure_of, speech_of, value


@pytest.mark.parametrize(
    ("said", "values", "found"),
    [
        (
            "the guard 's off already that was one of the five mil allens",
            (("five mil", "tool_size", "5 mm hex", "belt guard bolt"),),
            ["Remove the belt guard bolt with a 5 mm hex key and remove the belt guard."],
        ),
        (
            "remove the four screws with the ten torx bit",
            (("ten torx", "tool_size", "T10", "lamp cover screws"),),
            ["Remove the four lamp cover screws with a T10 bit."],
        ),
        (
            "guard back on and nine newton meters on those",
            (("nine newton meters", "torque", "9 N·m", "belt guard bolts"),),
            ["Refit the belt guard and tighten the belt guard bolts to 9 N·m."],
        ),
        (
            "there's a sprocket in the vise ten mil socket and they come off easy",
            (("ten mil", "tool_size", "10 mm", "sprocket nuts"),),
            ["Remove the sprocket nuts with a 10 mm socket and remove the sprocket."],
        ),
        (  # the size is of another thing's bolts: the thing keeps its name
            "so the cover comes off and that's two of the five mil allens",
            (("five mil", "tool_size", "5 mm hex", "belt guard bolts"),),
            ["Remove the cover and the two belt guard bolts with a 5 mm hex key."],
        ),
        (  # a size of one fastener is not printed on another
            "ten mil socket out and tighten the clamp screw to eight newton meters",
            (
                ("ten mil", "tool_size", "10 mm", "pump bolts"),
                ("eight newton meters", "torque", "8 N·m", "clamp screw"),
            ),
            ["Remove the pump bolts with a 10 mm socket and tighten the clamp screw to 8 N·m."],
        ),
        (
            "the wheel gets twelve newton meters | and stripe it with a paint pen",
            (("twelve newton meters", "torque", "12 N·m", "wheel bolt"),),
            ["Tighten the wheel bolt to 12 N·m.", "Stripe the wheel bolt with a paint pen."],
        ),
        (
            "forty newton meters on those nuts | and check them again in fifty miles",
            (
                ("forty newton meters", "torque", "40 N·m", "wheel nuts"),
                ("fifty miles", "distance", "50 mi", None),
            ),
            ["Tighten the wheel nuts to 40 N·m.", "Check the wheel nuts again after 50 mi."],
        ),
    ],
)
def test_a_thing_is_named_by_its_fasteners(
    said: str, values: tuple[tuple[str, str, str, str | None], ...], found: list[str]
) -> None:
    speech = speech_of(said)
    given = tuple(value(speech, *told, f"m{n}") for n, told in enumerate(values))
    assert [step.text for step in procedure_of(said, given).steps] == found
