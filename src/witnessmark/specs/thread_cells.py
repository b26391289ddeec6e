"""Threads as tables print them: `M8`, `M10x1.25`, `3/8-16`, `1.37 x 24`, `M10x1 left-hand`, `left-hand`."""

import re
from dataclasses import dataclass

from witnessmark.specs.threads import all_threads, thread
from witnessmark.specs.written import Unreadable, plain_form

_LEFT = re.compile(r"\b(?:left[- ]?hand(?:ed)?|lh|reverse)\b(?: thread(?:ed|s)?)?", re.I)
_RIGHT = re.compile(r"\b(?:right[- ]?hand(?:ed)?|rh)\b(?: thread(?:ed|s)?)?", re.I)
_LEFT_IN_NAME = re.compile(r"\b(?:left[- ]?hand(?:ed)?|reverse) thread(?:ed|s)?\b", re.I)
_METRIC = re.compile(r"M ?(?P<size>[1-9][0-9]?) ?x ?(?P<pitch>[0-9](?:\.[0-9]{1,2})?)", re.I)
# A figure after x is the length of a screw unless it is too large for one in inches: 9/16 x 20 is a thread.
_INCH = re.compile(
    r"(?P<size>(?:[1-9][ -])?[1-9][0-9]?/[1-9][0-9]?|[0-9]{1,2}(?:\.[0-9]{1,3})?)(?:\"| ?in)?"
    r" ?(?:-(?P<by_hyphen>[1-9][0-9]?)|x ?(?P<by_x>[1-9][0-9]))(?: ?tpi)?(?: ?(?:un[cfs]?|unef|bs[cfw]))?",
    re.I,
)
_PIPE = re.compile(
    r"[GR][cp]? ?[0-9](?:[ /][0-9]{1,2}){0,3}"
    r"|(?:[0-9] )?[0-9](?:/[0-9]{1,2})?\"? ?-?(?:[0-9]{1,2} )?(?:BSP[PT]?|NPTF?)",
    re.I,
)
_REMEDY = "write it as M8, M10x1.25, 3/8-16 or M10x1 left-hand"


@dataclass(frozen=True, slots=True)
class ThreadCell:
    """One thread as a table gives it.

    name: `M8`, `M10x1.25`, `3/8-16`; None where only the hand is given. left_hand: None where the hand is not given.
    """

    name: str | None
    left_hand: bool | None


def says_left_hand(name: str) -> bool:
    """Whether an item's name says that its thread is left-hand. A `left-hand pedal` is only on the left."""
    return bool(_LEFT_IN_NAME.search(name))


def parse_thread(text: str) -> ThreadCell:
    """Read a thread cell.

    Raises Unreadable where it is no thread of data/fasteners, and no special one by its form.
    """
    plain = plain_form(text)
    left, right = bool(_LEFT.search(plain)), bool(_RIGHT.search(plain))
    rest = _RIGHT.sub(" ", _LEFT.sub(" ", plain)).strip(" ,;()-")
    if left and right:
        raise Unreadable(f"{plain[:40]!r} is both left-hand and right-hand", "give each thread a row of its own")
    if not rest and not (left or right):
        raise Unreadable(f"{plain[:40]!r} is not a thread", _REMEDY)
    return ThreadCell(_name(rest) if rest else None, (left or None) if not right else False)


def _name(text: str) -> str:
    if match := _INCH.fullmatch(text):
        text = f"{match['size'].replace('-', ' ')}-{match['by_hyphen'] or match['by_x']}"
    try:
        return thread(text).name
    except ValueError as why:
        # Cycle, pipe and other special threads stand in no table of bolts, so their form has to do.
        if match or _PIPE.fullmatch(text) or _is_special_metric(text):
            return text
        raise Unreadable(str(why).partition("; write")[0], _REMEDY) from None


def _is_special_metric(text: str) -> bool:
    """Whether a size that no table lists has a pitch of ISO 261, and no larger one than the next listed size."""
    match = _METRIC.fullmatch(text)
    if match is None:
        return False
    size, pitch = float(match["size"]), float(match["pitch"])
    metric = [each for each in all_threads() if each.system == "metric"]
    larger = next((each for each in metric if each.diameter >= size and each.series == "coarse"), None)
    return larger is not None and pitch <= larger.pitch and pitch in {each.pitch for each in metric}
