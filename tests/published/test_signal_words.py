"""Signal words against the definitions of ANSI Z535.4-2007 section 4.14, as quoted by safetylabel.com (ansi-signal-words).

Quoted there, in short: DANGER, a hazard that will kill or seriously injure if not avoided, only for the extreme; WARNING, that could kill or
seriously injure; CAUTION, that could injure, minor or moderate; NOTICE, practices not about injury. Severity selects the word, not the worth of
property. The embedded messages of ANSI Z535.6 use the same words.
"""

import pytest

from witnessmark.procedure.hazards import Hazard, hazard_book
from witnessmark.procedure.signal_words import ORDER, Injury, Likelihood, Signal, signal_word


@pytest.mark.parametrize(
    ("injury", "likelihood", "word"),
    [
        ("death_or_serious", "will", "DANGER"),
        ("death_or_serious", "could", "WARNING"),
        ("minor_or_moderate", "could", "CAUTION"),
        ("minor_or_moderate", "will", "CAUTION"),
        ("none", "could", "NOTICE"),
        ("none", "will", "NOTICE"),
    ],
)
def test_definitions(injury: Injury, likelihood: Likelihood, word: Signal) -> None:
    assert signal_word(injury, likelihood) == word


def test_order_of_gravity() -> None:
    """The greatest comes first: several hazards on one label take the word of the greatest (as quoted by safetysign.com)."""
    assert ORDER == ("DANGER", "WARNING", "CAUTION", "NOTICE")


def entries(word: Signal) -> list[Hazard]:
    return [entry for entry in hazard_book().hazards if entry.signal == word]


def test_danger_is_kept_for_the_extreme() -> None:
    assert 0 < len(entries("DANGER")) < len(hazard_book().hazards) / 10
    assert all(" will " in entry.consequence for entry in entries("DANGER"))


def test_warning_and_caution_say_could_and_not_will() -> None:
    for entry in (*entries("WARNING"), *entries("CAUTION")):
        assert " will " not in entry.consequence, entry.id


def test_notice_speaks_of_no_injury() -> None:
    for entry in entries("NOTICE"):
        assert not {"injure", "kill", "burn", "cut", "crush"} & set(
            entry.consequence.casefold().replace(".", "").split()
        ), entry.id
