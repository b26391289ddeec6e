"""Numbers in speech. The cases stand in numbers_said_found.txt, what is said above what is found."""

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from witnessmark.language.numbers import Number, read_numbers

CASES = Path(__file__).with_name("numbers_said_found.txt")
NUMBER_WORDS = """
    a an and one two five nine zero oh o ten twelve nineteen twenty thirty ninety hundred thousand million point
    half halves quarter third thirds eighths second seconds fourths first hundredth seventies tens minus negative
    few couple of or plus - . , 5 35 000 050 .5 2.5 -4 3/8 1/0 22nd bolt to
"""
PLAIN_WORDS = "tighten the bolt with torque wrench until it clicks then stop now gets so"


def tokens(said: str) -> list[str]:
    return said.split()


def said_found() -> list[tuple[str, str]]:
    lines = CASES.read_text(encoding="utf-8").splitlines()
    said_or_found = [line for line in lines if line and not line.startswith("#")]
    return list(zip(said_or_found[::2], said_or_found[1::2], strict=True))


def told(number: Number) -> str:
    apart = f" ({', '.join(str(other.value) for other in number.apart)})" if number.apart else ""
    return f"{number.value} {number.form}{apart}{' written' if number.written else ''}"


@pytest.mark.parametrize(("said", "found"), said_found())
def test_number(said: str, found: str) -> None:
    assert "; ".join(map(told, read_numbers(tokens(said)))) == (found if found != "none" else "")


def test_a_number_covers_its_own_words_only() -> None:
    said = tokens("give it a hundred and twenty two and a half foot pounds")
    (number,) = read_numbers(said)
    assert said[number.start : number.end] == tokens("a hundred and twenty two and a half")


def test_parts_of_a_joined_number_know_their_place() -> None:
    (joined,) = read_numbers(tokens("two ten mil bolts"))
    assert [(part.start, part.end) for part in joined.apart] == [(0, 1), (1, 2)]


def test_long_figures_are_read_whole() -> None:
    figures = "9" * 5000
    assert [number.value for number in read_numbers([figures, "/", f"1/{figures}"])] == [Decimal(figures)]


@given(st.lists(st.sampled_from(tokens(NUMBER_WORDS)) | st.text(max_size=4), max_size=40))
def test_any_tokens_give_ordered_spans_inside_them(said: list[str]) -> None:
    end = 0
    for number in read_numbers(said):
        assert end <= number.start < number.end <= len(said)
        assert number.value.is_finite()
        end = number.end


@given(
    st.integers(0, 99_999),
    st.booleans(),
    st.lists(st.sampled_from(tokens(PLAIN_WORDS)), max_size=5),
    st.lists(st.sampled_from(tokens(PLAIN_WORDS)), max_size=5),
)
def test_a_number_is_found_among_other_words(n: int, with_and: bool, before: list[str], after: list[str]) -> None:
    words = tokens(num2words(n).replace("-", " ").replace(",", ""))
    if not with_and:
        words = [word for word in words if word != "and"]
    found = [(number.start, number.end, number.value) for number in read_numbers([*before, *words, *after])]
    assert found == [(len(before), len(before) + len(words), n)]
