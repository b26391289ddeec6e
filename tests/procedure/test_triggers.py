"""The patterns of hazards.toml and promises.toml."""

import pytest

from witnessmark.language.vocabulary import lemmas_of, tokens_of
from witnessmark.procedure.triggers import BETWEEN, Index, compile_pattern, occurrences, spoken_words

GROUPS = {"remove": ["~take off", "~pull"]}


def holds(pattern: str, said: str) -> bool:
    compiled = compile_pattern(pattern)
    words, _ = spoken_words(lemmas_of(tokens_of(said)))
    return any(True for _ in occurrences(compiled, Index(compiled.atoms, GROUPS).spans(words)))


@pytest.mark.parametrize(
    ("pattern", "said"),
    [
        ("coil spring", "both coil springs are out"),
        ("~jack up", "i jacked up the back"),
        ("brake|carb cleaner", "a can of carb cleaner"),
        ("~cool_down|hot", "let it cool down"),
        ("[remove] blade", "take off the blade"),
        ("[remove] blade", "pulling that blade"),
        ("~lift ... car", "lift the whole car"),
        ("capacitor & ~short|~discharge", "you short it out because that's a capacitor"),
        ("spring & !clamp", "a big spring"),
        ("# kilo", "seventy two kilos"),
        ("# kilo", "a hundred and six kilos"),
        ("# kilo", "43 kilos"),
    ],
)
def test_holds(pattern: str, said: str) -> None:
    assert holds(pattern, said)


@pytest.mark.parametrize(
    ("pattern", "said"),
    [
        ("coil spring", "spring coil"),
        ("~lift ... car", "lift one two three four five six car"),
        ("capacitor & ~short", "a capacitor" + " and so on" * 10 + " short"),
        ("spring & !clamp", "a spring clamp"),
        ("# kilo", "eight kilos"),
        ("~jack up", "the jack is up"),
    ],
)
def test_does_not_hold(pattern: str, said: str) -> None:
    assert not holds(pattern, said)


@pytest.mark.parametrize("pattern", ["", "!spring", "a ...  ... b"])
def test_a_pattern_without_anything_to_look_for_is_an_error(pattern: str) -> None:
    with pytest.raises(ValueError, match="nothing to look for"):
        compile_pattern(pattern)


def test_an_unknown_group_is_an_error() -> None:
    with pytest.raises(KeyError):
        Index(["[nowhere]"], GROUPS)


def test_a_choice_that_is_passed_over_is_an_error() -> None:
    with pytest.raises(ValueError, match="passed over"):
        Index(["~put it|that up"], GROUPS)


@pytest.mark.parametrize(
    ("pattern", "said"),
    [("lead off", "the lead's off"), ("on stand", "sat on two stands"), ("plug out", "the plug is out")],
)
def test_words_between(pattern: str, said: str) -> None:
    words, _ = spoken_words(lemmas_of(tokens_of(said)))
    assert Index([pattern], GROUPS, BETWEEN).spans(words).get(pattern)
    assert not Index([pattern], GROUPS).spans(words).get(pattern)


def test_no_word_between_before_the_first() -> None:
    assert Index(["on stand"], GROUPS, BETWEEN).spans(["is", "on", "stand"])["on stand"] == [(1, 3)]
