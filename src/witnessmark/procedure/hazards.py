"""The dangers this project knows and what gives each away (data/hazards.toml)."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from witnessmark.data import read_toml
from witnessmark.procedure.signal_words import Signal, signal_word
from witnessmark.procedure.triggers import BETWEEN, Groups, Index, Pattern, compile_pattern


@dataclass(frozen=True, slots=True)
class Hazard:
    """One danger.

    when: patterns, any of which gives it away. machines: classes of machine it is looked for on; () for all. except_on: classes it is not.
    always_on: classes whose repair always has it. traits, items: traits of the vocabulary, words in the name of a fastener, that give it away.
    general: said only where no other entry of the same hazard fits. whole_job: belongs before the work starts.
    """

    id: str
    hazard: str
    signal: Signal
    title: str
    danger: str
    consequence: str
    avoid: str
    source: str
    when: tuple[Pattern, ...]
    machines: frozenset[str]
    except_on: frozenset[str]
    always_on: frozenset[str]
    traits: frozenset[str]
    items: frozenset[str]
    general: bool
    whole_job: bool


@dataclass(frozen=True)
class HazardBook:
    """Every hazard in file order. index: finds all their atoms.

    machines: the words that name each class of machine, `...` where others may stand between. unless: words beside which a kind is not of the class.
    apart: names that are not the machine which a part of them names. cues: patterns by what they tell: passing, listing, tightening, warning.
    """

    hazards: tuple[Hazard, ...]
    machines: Mapping[str, tuple[str, ...]]
    unless: Mapping[str, tuple[str, ...]]
    apart: tuple[str, ...]
    cues: Mapping[str, tuple[Pattern, ...]]
    index: Index


def _patterns(texts: list[str]) -> tuple[Pattern, ...]:
    return tuple(compile_pattern(text) for text in texts)


def _hazard(entry: Mapping[str, Any]) -> Hazard:
    def names(key: str) -> frozenset[str]:
        return frozenset(entry.get(key, ()))

    return Hazard(
        **{key: entry[key] for key in ("id", "hazard", "title", "danger", "consequence", "avoid", "source")},
        signal=signal_word(entry["injury"], entry["likelihood"]),
        when=_patterns(entry.get("when", [])),
        machines=names("machines"),
        except_on=names("except_on"),
        always_on=names("always_on"),
        traits=names("traits"),
        items=names("items"),
        general=entry.get("general", False),
        whole_job=entry.get("whole_job", False),
    )


@cache
def hazard_book() -> HazardBook:
    """The packaged hazards."""
    data = read_toml("hazards.toml")
    groups: Groups = data["groups"]
    hazards = tuple(_hazard(entry) for entry in data["hazard"])
    machines, unless = ({name: tuple(words) for name, words in data[key].items()} for key in ("machines", "unless"))
    cues = {name: _patterns(texts) for name, texts in data["cues"].items()}
    patterns = [pattern for entry in hazards for pattern in entry.when] + [
        pattern for found in cues.values() for pattern in found
    ]
    atoms = [atom for pattern in patterns for atom in pattern.atoms]
    words = [word for named in machines.values() for word in named]
    return HazardBook(hazards, machines, unless, tuple(data["apart"]), cues, Index(atoms + words, groups, BETWEEN))
