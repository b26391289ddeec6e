"""Tables that a script makes from a library say what the installed library says."""

import sys
from importlib import resources
from pathlib import Path

import lemminflect
import pytest

from witnessmark.data import line_of
from witnessmark.language.words import base_forms, base_of
from witnessmark.procedure.lexicon import deeds

sys.path.insert(0, str(Path(__file__).parents[1] / "benchmarks"))

import make_inflections
import make_trade_sounds

DATA = resources.files("witnessmark") / "data"


@pytest.mark.parametrize("name", ["lemmas", "verbs"])
def test_every_inflection_is_what_lemminflect_says(name):
    made = sorted(line.encode() for line in getattr(make_inflections, f"{name[:-1]}_lines")())
    assert (DATA / "inflection" / f"{name}.tsv").read_bytes() == b"".join(made), (
        "run: python benchmarks/make_inflections.py src/witnessmark/data/inflection"
    )


@pytest.mark.parametrize("word", ["bolts", "torqued", "seized", "loose", "off", "quickly", "wrench", "brackets", "is"])
def test_a_word_is_looked_up_as_the_library_would(word):
    assert base_of(word) == lemminflect.getAllLemmas(word)


def test_words_that_stand_nowhere():
    assert base_of("splorked") == {} and base_of("") == {} and base_of("Bolts") == {}
    assert line_of("inflection/verbs.tsv", "splork") is None
    assert base_forms("splork") == {"splork", "splorks", "splorked", "splorking"}


def test_the_verbs_of_the_action_vocabulary_need_no_rules():
    missing = sorted(
        said[0] for said in deeds() if said[0].isalpha() and line_of("inflection/verbs.tsv", said[0]) is None
    )
    assert not missing, "run: python benchmarks/make_inflections.py src/witnessmark/data/inflection"


def test_every_name_of_the_vocabulary_sounds_as_the_rules_say():
    made = "".join(make_trade_sounds.lines()).encode()
    assert (DATA / "pronunciation" / "trade_sounds.tsv").read_bytes() == made, (
        "run: python benchmarks/make_trade_sounds.py src/witnessmark/data/pronunciation"
    )
