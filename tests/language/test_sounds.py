"""Pronunciations, and the distance of sounds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.language.sounds import (
    NAME,
    UNLISTED,
    commonness,
    distance,
    nearest,
    phonemes,
    pronounce,
    pronounce_all,
    skeleton,
    spell_out,
)

SOUNDS = st.text(alphabet=sorted(phonemes()), max_size=12)
LETTERS = st.text(alphabet="abcdefghijklmnopqrstuvwxyz", min_size=1, max_size=15)


def apart(heard: str, meant: str) -> float:
    return nearest(pronounce_all(heard.split()), pronounce_all(meant.split()))


@pytest.mark.parametrize(
    ("word", "sounds"),
    [
        # the CMU Pronouncing Dictionary: torque T AO1 R K, grease G R IY1 S, spindle S P IH1 N D AH0 L, loom L UW1 M
        ("torque", "tork"),
        ("grease", "gris"),
        ("spindle", "spIndxl"),
        ("loom", "lum"),
        # our own additions for words that it lacks
        ("impeller", "ImpElR"),
        ("derailleur", "dRelR"),
    ],
)
def test_listed_words_sound_as_the_dictionary_says(word: str, sounds: str) -> None:
    assert pronounce(word)[0] == sounds


def test_the_first_and_the_last_word_of_the_table_are_found() -> None:
    assert pronounce("a")[0] == "x"
    assert pronounce("zyuganov")[0].startswith("zyu")


def test_a_word_with_two_pronunciations_has_both() -> None:
    assert {"Antisiz", "AntYsiz"} <= set(pronounce_all(["anti", "seize"]))


@pytest.mark.parametrize(
    ("word", "like"),
    [("oaring", "oar ing"), ("chainstay", "chain stay"), ("torques", "torx"), ("respokes", "re spokes")],
)
def test_unlisted_words_are_built_from_listed_ones(word: str, like: str) -> None:
    assert apart(word, like) < 0.1


@given(LETTERS)
def test_every_word_of_letters_has_a_sound(word: str) -> None:
    assert pronounce(word)
    assert all(set(sounds) <= set(phonemes()) for sounds in (*pronounce(word), spell_out(word)))


@pytest.mark.parametrize("word", ["", "25", ".", "0.5"])
def test_figures_and_signs_have_none(word: str) -> None:
    assert pronounce(word) == ()


def test_commonness_runs_from_everyday_to_unlisted() -> None:
    assert commonness("the") == 1
    assert commonness("the") < commonness("pillar") < commonness("derailleur")
    assert commonness("william") == NAME
    assert commonness("oaring") == UNLISTED


@given(SOUNDS, SOUNDS)
def test_distance_is_symmetric_and_zero_only_for_the_same(a: str, b: str) -> None:
    assert distance(a, b) == pytest.approx(distance(b, a))
    assert (distance(a, b) == 0) == (a == b)


@given(SOUNDS, SOUNDS, st.floats(0, 5))
def test_a_cutoff_changes_no_distance_within_it(a: str, b: str, cutoff: float) -> None:
    whole = distance(a, b)
    cut = distance(a, b, cutoff)
    assert cut == pytest.approx(whole) if whole <= cutoff else cut > cutoff


@pytest.mark.parametrize(
    ("nearer", "farther"),
    [
        # a voicing is less than a place, a place than a manner; a near vowel is less than a far one
        (("bin", "pin"), ("kin", "pin")),
        (("not", "nut"), ("neat", "nut")),
        (("harm", "arm"), ("farm", "arm")),
        (("talk", "torque"), ("took", "torque")),
        (("boats", "bolts"), ("boasts", "bolts")),
        (("loon", "loom"), ("loop", "loom")),
    ],
)
def test_what_is_easily_misheard_is_nearer(nearer: tuple[str, str], farther: tuple[str, str]) -> None:
    assert apart(*nearer) < apart(*farther)


@pytest.mark.parametrize(
    ("heard", "meant"),
    [
        ("pen a trading oil", "penetrating oil"),
        ("in pillar", "impeller"),
        ("oaring", "o ring"),
        ("auntie sees", "anti seize"),
        ("spin doll", "spindle"),
        ("front the railer", "front derailleur"),
    ],
)
def test_word_boundaries_leave_no_trace(heard: str, meant: str) -> None:
    assert apart(heard, meant) < 0.13


def test_a_skeleton_keeps_the_folded_consonants() -> None:
    assert skeleton(pronounce("pedals")[0]) == skeleton(pronounce("petals")[0]) == "ptls"
    assert skeleton(pronounce("torque")[0]) == skeleton(pronounce("talk")[0]) == "tk"
    assert skeleton("") == ""


@pytest.mark.parametrize(("word", "letters"), [("ptfe", "ptfe"), ("pcv", "pcv"), ("bb", "bb")])
def test_a_word_without_a_vowel_is_said_letter_by_letter(word: str, letters: str) -> None:
    assert pronounce(word) == ("".join(pronounce(letter)[0] for letter in letters),)
