"""The known name that an unknown one was probably meant to be."""

from collections.abc import Iterable

from rapidfuzz import fuzz, process

NEAR = 60
"""Likeness in percent from which a name is worth suggesting: `facts` is near to `facts.json`, `xyz` to nothing."""


def nearest(name: str, known: Iterable[str], least: float = NEAR) -> str | None:
    """The most alike of the known names; None where none is alike enough. least: likeness in percent."""
    match = process.extractOne(name, list(known), scorer=fuzz.ratio, score_cutoff=least)
    return match[0] if match else None


def not_known(what: str, name: str, known: Iterable[str]) -> str:
    """`what` is not known, and where one is near, which name is the nearest."""
    near = nearest(name, known)
    return f"{what} is not known" + (f", the nearest is {near!r}" if near else "")
