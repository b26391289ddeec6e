"""Spellings of dialect are read as their words; what is quoted keeps the spelling."""

import pytest

from witnessmark.language.tokens import tokenize


@pytest.mark.parametrize(
    ("written", "read_as"),
    [
        ("oot", ("out",)),
        ("Doon,", ("down", ",")),
        ("dinnae", ("do", "n't")),
        ("o'", ("of",)),
        ("'em.", ("them", ".")),
        ("outta", ("out", "of")),
        ("o-ring", ("o", "ring")),
        ("wide", ("wide",)),
    ],
)
def test_words_of_dialect(written: str, read_as: tuple[str, ...]) -> None:
    assert tokenize(written) == read_as
