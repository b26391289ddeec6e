"""The recording divided into chapters.

Every division has a likelihood: of each mark by the cues that stand there, of each chapter by its length (a
semi-Markov conditional random field: Sarawagi and Cohen, "Semi-Markov conditional random fields for information
extraction", 2004, from memory). Its weights were learnt from recordings divided by hand. From all divisions together
follows the chance that a chapter begins at a place, and the marks are set where that chance gathers. The one likeliest
division is a worse guess: where ten are nearly as good as the best, it takes a side in each place.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from math import exp, log, sqrt

from witnessmark.procedure.chapter_cues import Place, find_places
from witnessmark.procedure.lexicon import phrase_table
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.talk import Talk
from witnessmark.procedure.task import Task

USUAL = 2.0  # the usual chapter lasts so many times the square root of the recording, in seconds: 45 s of 8 minutes
LONGEST_USUAL = 180.0
LIMIT = 5.0  # no chapter is so many times the usual one
SHORTEST = 12.0
LAST = 10.0  # seconds that the last chapter has at least
APART = 0.6  # of the usual chapter: marks are no nearer
# a mark gathers the chances from so many seconds around it; those nearer by, and its own, count more
NEAR, NEARER, HERE = 8.0, 3.0, 0.0
WORTH = {NEAR: 1.0, NEARER: 0.3, HERE: 0.25}
ENOUGH = 0.45  # a mark is set where this much gathers

Weights = Mapping[str, float]


@cache
def weights() -> Weights:
    """The weights of data/procedure/chapters.toml: of each cue, "mark", "longer" and "off"."""
    return phrase_table("chapters", "weights")


def divide(
    spoken: Spoken, tasks: Sequence[Task], lists: Sequence[tuple[int, int]], talk: Sequence[Talk]
) -> tuple[Place, ...]:
    """Where the chapters begin, the first at the start of the recording. tasks: in order of start."""
    places = find_places(spoken, tasks, lists, talk)
    end = spoken.speech.tokens[-1].end
    chances = Divisions(places, end, weights()).chances()
    return tuple(places[n] for n in choose([place.start for place in places], end, chances))


def usual_length(duration: float) -> float:
    """Seconds of the usual chapter of a recording: the longer it is, the more and the longer chapters it has."""
    return min(LONGEST_USUAL, USUAL * sqrt(max(1.0, duration)))


@dataclass(frozen=True)
class Divisions:
    """All divisions of a recording. places: where a chapter may begin, the start first. end: seconds."""

    places: Sequence[Place]
    end: float
    weights: Weights

    def mark(self, n: int) -> float:
        """How much the cues speak for a chapter that begins at a place."""
        return self.weights["mark"] + sum(self.weights[name] * cue for name, cue in self.places[n].cues.items())

    def length(self, first: int, end: int) -> float:
        """How well a chapter between two places pleases by its length."""
        off = self.off(first, end)
        return self.weights["longer"] * off - self.weights["off"] * off * off

    def off(self, first: int, end: int) -> float:
        """Logarithm of how much longer than usual a chapter is. The last may well be shorter."""
        last = end == len(self.places)
        seconds = (self.end if last else self.places[end].start) - self.places[first].start
        off = log(max(1.0, seconds) / usual_length(self.end))
        return off / 2 if last and off < 0 else off

    def reach(self, end: int) -> int:
        """The earliest place where a chapter that ends at a place can begin."""
        time = (self.end if end == len(self.places) else self.places[end].start) - LIMIT * usual_length(self.end)
        first = end - 1
        while first > 0 and self.places[first - 1].start >= time:
            first -= 1
        return first

    def sums(self) -> tuple[list[float], list[float]]:
        """Logarithms of the summed likelihoods of all ways to divide what stands before each place and what stands
        after it; the mark at the place counts with what stands before.
        """
        size = len(self.places)
        marks = [0.0, *(self.mark(n) for n in range(1, size)), 0.0]
        before = [0.0]
        into: list[list[tuple[int, float]]] = [[] for _ in range(size)]
        for end in range(1, size + 1):
            lengths = [(first, self.length(first, end)) for first in range(self.reach(end), end)]
            before.append(marks[end] + _log_sum([before[first] + length for first, length in lengths]))
            for first, length in lengths:
                into[first].append((end, length))
        after = [0.0] * (size + 1)
        for first in range(size - 1, -1, -1):
            after[first] = _log_sum([length + marks[end] + after[end] for end, length in into[first]])
        return before, after

    def chances(self) -> list[float]:
        """The chance that a chapter begins at each place; 0 for the first, which needs no mark."""
        before, after = self.sums()
        return [0.0, *(exp(before[n] + after[n] - before[-1]) for n in range(1, len(self.places)))]


def _log_sum(logs: Sequence[float]) -> float:
    most = max(logs)
    return most + log(sum(exp(one - most) for one in logs))


def choose(times: Sequence[float], end: float, chances: Sequence[float]) -> list[int]:
    """The places to mark, so that most of the chances lie near a mark and few marks stand for nothing.

    Of all ways to set marks far enough apart, the one with the greatest sum of what each gathers beyond ENOUGH.
    """
    apart = max(SHORTEST, APART * usual_length(end))
    size = len(times)
    worth = [sum(w * _within(times, chances, n, s) for s, w in WORTH.items()) - ENOUGH for n in range(size)]
    best = [0.0] * (size + 1)
    following = [size] * size
    for n in range(size - 1, 0, -1):
        following[n] = next((m for m in range(n + 1, size) if times[m] >= times[n] + apart), size)
        allowed = SHORTEST <= times[n] <= end - LAST
        best[n] = max(best[n + 1], worth[n] + best[following[n]] if allowed else 0.0)
    chosen, n = [0], 1
    while n < size:
        marked = best[n] > best[n + 1]
        if marked:
            chosen.append(n)
        n = following[n] if marked else n + 1
    return chosen


def _within(times: Sequence[float], chances: Sequence[float], n: int, seconds: float) -> float:
    """The chances within so many seconds of a place."""
    total = chances[n]
    for step in (-1, 1):
        m = n + step
        while 0 <= m < len(times) and abs(times[m] - times[n]) <= seconds:
            total += chances[m]
            m += step
    return total
