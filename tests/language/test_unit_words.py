"""Units in speech: the words in front, what they may mean behind."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.language.unit_words import match_units
from witnessmark.units import units


def tokens(said: str) -> list[str]:
    return said.split()


def meant(said: str) -> list[tuple[str, tuple[str, ...]]]:
    words = tokens(said)
    return [(" ".join(words[unit.start : unit.end]), unit.labels) for unit in match_units(words)]


@pytest.mark.parametrize(
    ("said", "label"),
    [
        ("foot pounds", "lbf·ft"),
        ("foot pound", "lbf·ft"),
        ("pound feet", "lbf·ft"),
        ("pounds feet", "lbf·ft"),
        ("pound foot", "lbf·ft"),
        ("foot lbs", "lbf·ft"),
        ("ft lbs", "lbf·ft"),
        ("lb ft", "lbf·ft"),
        ("lbf ft", "lbf·ft"),
        ("inch pounds", "lbf·in"),
        ("inch lbs", "lbf·in"),
        ("in lb", "lbf·in"),
        ("newton meters", "N·m"),
        ("newton metres", "N·m"),
        ("n m", "N·m"),
        ("nm", "N·m"),
        ("n·m", "N·m"),
        ("kilogram force meters", "kgf·m"),
        ("pounds per square inch", "psi"),
        ("millimetre", "mm"),
        ("thousandths of an inch", "thou"),
        ("miles an hour", "mph"),
        ("degrees celsius", "°C"),
        ("amp hours", "Ah"),
        ("kilo ohms", "kΩ"),
        ("cubic inches", "in³"),
        ("quid", "£"),
    ],
)
def test_one_meaning(said: str, label: str) -> None:
    assert meant(said) == [(said, (label,))]


@pytest.mark.parametrize(
    ("said", "labels"),
    [
        ("mil", ("mm", "thou", "mL")),
        ("mills", ("mm", "thou", "mL")),
        ("pounds", ("lbf·ft", "psi", "lb", "lbf", "£")),
        ("newtons", ("N·m", "N")),
        ("degrees", ("°", "°C", "°F")),
        ("ounces", ("fl oz", "oz")),
        ("pints", ("pt", "imp pt")),
        ("k", ("km", "kΩ")),
    ],
)
def test_several_meanings_in_the_order_of_the_data(said: str, labels: tuple[str, ...]) -> None:
    assert meant(said) == [(said, labels)]


def test_the_longest_form_wins() -> None:
    assert meant("21 pounds 21 foot pounds 30 pounds per square inch") == [
        ("pounds", ("lbf·ft", "psi", "lb", "lbf", "£")),
        ("foot pounds", ("lbf·ft",)),
        ("pounds per square inch", ("psi",)),
    ]


@pytest.mark.parametrize(
    "said", ["bar", "second", "degree", "g", "m", "in", "foot", "yard", "mil", "c", "f", "v", "w", "a"]
)
def test_words_that_need_a_number_before_them(said: str) -> None:
    (word,) = match_units([said])
    assert word.needs_number


@pytest.mark.parametrize("said", ["newton meters", "psi", "millimeters", "inches", "ohms", "%", "$"])
def test_words_that_need_none(said: str) -> None:
    (word,) = match_units(tokens(said))
    assert not word.needs_number


def test_said_short() -> None:
    newtons, pounds, inch_pounds = (match_units(tokens(said))[0] for said in ("newtons", "pounds", "inch pounds"))
    assert newtons.short_labels == ("N·m",)
    assert pounds.short_labels == ("lbf·ft", "psi")
    assert newtons.short and pounds.short and not inch_pounds.short


def test_ordinary_words_are_doubtful_even_after_a_number() -> None:
    assert [word.doubtful for word in match_units(tokens("10 in 5 a 3 bar"))] == [True, True, False]


def test_every_unit_is_said_somehow() -> None:
    unsaid = [
        label
        for label, unit in units().items()
        if not any(label in match_units(tokens(form))[0].labels for form in (*unit.spoken, *unit.after_number))
    ]
    assert unsaid == []


FORM_WORDS = (
    "foot pounds pound feet per square inch in newton meters kilo ohms mil of an a fl oz degrees c torque bolt 5"
)


@given(st.lists(st.sampled_from(tokens(FORM_WORDS)) | st.text(max_size=3), max_size=30))
def test_any_tokens_give_ordered_spans_inside_them(said: list[str]) -> None:
    end = 0
    for word in match_units(said):
        assert end <= word.start < word.end <= len(said)
        assert word.labels
        end = word.end
