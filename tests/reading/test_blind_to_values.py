"""Which item a value belongs to never depends on the value: another figure in its place changes no attribution."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from said_found import Case, captions, cases, read_case, reading_of, table_of

from witnessmark.language.numbers import read_numbers
from witnessmark.reading.model import Mention, Reading

FILES = ("torques.txt", "attribution.txt", "restated_pairs.txt", "corrections.txt", "open_cases.txt")


def spoken_units(case: Case, reading: Reading) -> list[tuple[int, int]]:
    """Words of every torque figure that was said with its unit and is no end of a range: first, end (the unit not included)."""
    found = []
    for mention in reading.mentions:
        if mention.kind != "torque" or mention.inferred or mention.whole is not mention.amount:
            continue
        words = reading.speech.transcript.words
        first = reading.speech.tokens[mention.first].word
        number = next(iter(read_numbers([word.text.lower() for word in words[first : first + 8]])), None)
        if number is not None and number.start == 0 and mention.amount and number.value == mention.amount.low:
            found.append((first, first + number.end))
    return found


def with_figure(reading: Reading, place: tuple[int, int], figure: str) -> str:
    words = [word.text for word in reading.speech.transcript.words]
    return " ".join([*words[: place[0]], figure, *words[place[1] :]])


def attributed(mentions: tuple[Mention, ...]) -> list[tuple[str, str | None, tuple[str, ...]]]:
    return [(mention.kind, mention.item, mention.rivals) for mention in mentions]


CASES = [case for name in FILES for case in cases(name) if "torque" in case.found]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.place)
def test_the_value_of_another_row_moves_no_torque(case: Case) -> None:
    """The hardest figure there is: one that fits another item of the table and not this one."""
    reading = read_case(case)
    rows = [f"{row.amounts[0].low:f}" for row in table_of(case.table).rows if row.kind == "torque" and row.amounts]
    for place in spoken_units(case, reading)[:1]:
        said = " ".join(word.text for word in reading.speech.transcript.words[slice(*place)])
        other = next(figure for figure in reversed(rows) if figure != said)
        changed = reading_of(case, captions(with_figure(reading, place, other)))
        assert attributed(changed.mentions) == attributed(reading.mentions), f"{said} changed to {other}"


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(CASES), st.integers(2, 400), st.integers(0, 3))
def test_no_figure_moves_a_torque(case: Case, figure: int, which: int) -> None:
    reading = read_case(case)
    places = spoken_units(case, reading)
    if not places:
        return
    changed = reading_of(case, captions(with_figure(reading, places[which % len(places)], str(figure))))
    assert attributed(changed.mentions) == attributed(reading.mentions)


def test_most_cases_have_a_figure_to_change() -> None:
    assert sum(bool(spoken_units(case, read_case(case))) for case in CASES) > len(CASES) // 2
