"""What the properties of a specification table mean: dimensions, kind of mention, what a bare figure stands for."""

import re
from collections.abc import Collection
from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

from rapidfuzz import process
from rapidfuzz.distance import JaroWinkler

from witnessmark.data import read_toml
from witnessmark.nearest import nearest

_BOUNDS: dict[str, Literal["min", "max"]] = {"min": "min", "minimum": "min", "max": "max", "maximum": "max"}
_QUALIFIER = re.compile(r"(min|max)(?:imum|\.)? (?=.)")
# Of 100: "torqe" and "resistence" are slips of the finger, "stroke" and "torque" are two words.
_SLIP_OF_THE_FINGER = 80
# "tork" of 35 N·m is meant as a torque, where "tork" alone might be any word.
_SLIP_THAT_THE_VALUE_BEARS_OUT = (
    0.8  # Jaro-Winkler likeness, which sets "tork" (0.83) apart from "pitch" of a width (0.73)
)


@dataclass(frozen=True, slots=True)
class PropertyRule:
    """What may stand in the value column beside one property.

    name: of the rule in data/properties.toml, else the property's own. kind: of a mention in facts.json; None where
    the value's dimension decides. dimensions: those of data/units.toml that fit; empty where any fits. bound: of a
    bare figure. words: values given in words. text: the value is words, not an amount. stages, alternatives,
    negative: what one cell may hold.
    """

    name: str
    kind: str | None = None
    dimensions: tuple[str, ...] = ()
    bound: Literal["min", "max"] | None = None
    words: tuple[str, ...] = ()
    text: bool = False
    stages: bool = False
    alternatives: bool = False
    negative: bool = False


@cache
def property_rules() -> dict[str, PropertyRule]:
    """Rules by every property name of data/properties.toml, other names included, in its order."""
    rules: dict[str, PropertyRule] = {}
    for entry in read_toml("properties.toml")["property"]:
        names = [entry["name"], *entry.pop("also", ())]
        lists = {key: tuple(entry[key]) for key in ("dimensions", "words") if key in entry}
        rules |= dict.fromkeys(names, PropertyRule(**{**entry, **lists}))
    return rules


@cache
def remark_words() -> tuple[str, ...]:
    """Words that may stand after a printed value without brackets, longest first."""
    words = read_toml("properties.toml")["remarks"]["words"]
    return tuple(sorted(words, key=lambda word: (-len(word), word)))


@cache
def kind_of_dimension(dimension: str) -> str | None:
    """Kind of mention that speaks of a dimension, for properties without a rule; None where there is no such kind."""
    kinds = read_toml("properties.toml")["kind_of_dimension"]
    return str(kinds[dimension]) if dimension in kinds else None


def property_name(cell: str) -> str:
    """A property as it is compared: case folded, single spaces, `min.` and `max.` written out."""
    name = " ".join(cell.casefold().split())
    return _QUALIFIER.sub(lambda match: {"min": "minimum ", "max": "maximum "}[match[1]], name, count=1)


def rule_for(name: str) -> PropertyRule:
    """Rule of a property, by its last words: `electrode gap` is a gap, `maximum runout` is runout with a bound.

    name: as `property_name` gives it. A property without a rule of its own accepts any dimension.
    """
    rules = property_rules()
    first, *others = name.split(" ")
    tails = [" ".join([first, *others][start:]) for start in range(len(others) + 1)]
    rule = next((rules[tail] for tail in tails if tail in rules), PropertyRule(name, negative=True))
    if first in _BOUNDS and others:
        return replace(rule, bound=_BOUNDS[first])
    return rule


def likely_meant(name: str, dimensions: Collection[str] = ()) -> str | None:
    """Known property that an unknown one is probably a misspelling of; None where it is a word of its own.

    dimensions: of the row's value. A name that is less alike is still meant where the value is of its dimensions.
    """
    rules = property_rules()
    if any(name.endswith(known) for known in rules):
        return None
    if near := nearest(name, rules, _SLIP_OF_THE_FINGER):
        return near
    if any(name in known or known in name for known in rules):
        return None  # "dia" is short for a word, "travel limit" is longer than one: neither is misspelt
    fitting = [known for known, rule in rules.items() if {*dimensions} & {*rule.dimensions}]
    match = process.extractOne(
        name, fitting, scorer=JaroWinkler.similarity, score_cutoff=_SLIP_THAT_THE_VALUE_BEARS_OUT
    )
    return match[0] if match else None


@cache
def property_names() -> tuple[str, ...]:
    """Names of the rules, each once, in the order of data/properties.toml."""
    return tuple(dict.fromkeys(rule.name for rule in property_rules().values()))
