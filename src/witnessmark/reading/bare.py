"""Figures said without a unit: a torque, a tool size or neither, by the words that lead up to them and follow.

Each rule adds or takes points; what has most, and enough, is meant. Nothing looks at how large the figure is.
"""

from bisect import bisect_left, insort
from collections.abc import Sequence
from typing import Literal

from witnessmark.language.cues import Cues, find_cues
from witnessmark.language.speech import SHORT_PAUSE
from witnessmark.reading.figures import Figure, Talk
from witnessmark.reading.sightings import Sighting, fastener_places

ENOUGH_TORQUE, ENOUGH_SIZE = 4, 3
LEADING = frozenset({"uh", "um", "er", "about", "only", "just", "like", "exactly", "roughly", "around", "at", ","})
ARTICLES = frozenset({"a", "an", "the", "your", "my", "another", "old", "little"})


class BareRules:
    """The points over one recording. things: tokens where a word of some torque row's names is said."""

    def __init__(self, talk: Talk, sightings: Sequence[Sighting], things: Sequence[int]) -> None:
        self._talk = talk
        self._free: Cues = find_cues(talk.texts, "after")
        self._bare: Cues = find_cues(talk.texts, "bare")
        self._sizes: Cues = find_cues(talk.texts, "sizes")
        self._fasteners = fastener_places(talk.speech, sightings)
        self._drives = sorted(s.start for s in sightings if "sizing:drive" in s.traits)
        self._things = sorted(things)
        self._torques: list[int] = []
        self._sized: list[int] = []

    def note(self, kind: str, start: int) -> None:
        """Tells of a figure whose kind is known."""
        if kind in ("torque", "tool_size"):
            insort(self._torques if kind == "torque" else self._sized, start)

    def decide(self, figure: Figure, otherwise: bool) -> Literal["torque", "tool_size"] | None:
        """What a bare figure is, if it is either. otherwise: a neighbour tells that something else is measured here."""
        if not self.stands_free(figure):
            return None
        torque, size = self.torque_points(figure), self.size_points(figure)
        more = 2 * otherwise
        if torque >= ENOUGH_TORQUE + more and torque > size:
            return "torque"
        return "tool_size" if size >= ENOUGH_SIZE and size >= torque else None

    def stands_free(self, figure: Figure) -> bool:
        """Whether no noun follows that the figure would count, and nothing before makes it a number of something."""
        if self._bare.has("numbered", figure.start - 2, figure.start):
            return False
        following = self._talk.text(figure.end)
        if self._talk.speech.pauses[figure.end - 1] >= SHORT_PAUSE:
            return True
        return following in ("", ".", ",", "?", "!", ")", ";", "s") or any(
            start == figure.end for start, _ in self._free.between("free", figure.end, figure.end + 3)
        )

    def torque_points(self, figure: Figure) -> int:
        """Points for a torque."""
        talk, at, end = self._talk, figure.start, figure.end
        if figure.form == "fraction" or talk.text(end) in ("of", "s"):
            return 0
        low, _ = talk.clause(at, 16, 0)
        points = self._led(at) + (self._led_strongly(at) and self._near(self._fasteners, at - 16, at - 5))
        points += 2 * talk.cues.has("tighten", low, at)
        points += 2 * self._named_after(end) + 3 * self._bare.has("is_what", end, end + 3)
        points += 2 * (self._bare.has("recap", max(0, at - 45), at) and (self._near(self._fasteners, at - 4, end + 6) or self._near(self._things, at - 4, end + 6)))
        points += 2 * self._near(self._torques, at - 14, end + 12) or self._near(self._torques, at - 40, at)
        points += self._near(self._fasteners, at - 5, at) + self._near(self._things, at - 9, end + 6)
        points += (figure.form in ("decimal", "mixed")) + 2 * self._near(self._sized, at - 4, at)
        points += 2 * (self._near(self._fasteners, at - 6, at) and self._bare.has("give", at - 7, at))
        points -= 3 * (talk.text(at - 1) in ARTICLES) + 2 * self._removing(at, end) + 2 * talk.cues.has("measured", low, at)
        return points - 3 * self._bare.has("untorqued", at - 6, end + 4)

    def size_points(self, figure: Figure) -> int:
        """Points for a tool size."""
        talk, at, end = self._talk, figure.start, figure.end
        if figure.form == "decimal" or talk.text(end) == "by" or figure.low * 64 % 1:
            return 0
        counted = talk.text(at - 1) == "the" and figure.low <= 4  # "the two on the lock": the ones spoken of
        article = talk.text(at - 1) in ARTICLES and not counted
        fastener = self._near(self._fasteners, at - 12, end + 8) or self._near(self._things, at - 12, end + 8)
        with_the = any(stop == at for _, stop in self._bare.between("with_the", at - 4, at))
        points = 2 * article * fastener + (article and with_the) + (article and talk.text(end) == "on")
        points += 3 * self._on_a_drive(end) + self._on_a_head(end)
        points += (2 + (talk.text(end) == "on")) * self._removing(at, end) * fastener
        points += 2 * self._near(self._torques, end, end + 9) * (talk.text(at - 1) != "to") + 2 * self._near(self._torques, end, end + 1)
        plural = talk.text(figure.number_end - 1).endswith("s") and talk.text(figure.number_end - 1)[-2:-1].isalpha() or talk.text(end) == "s"
        points += 4 * (plural and talk.text(figure.number_end - 1) != "six")
        return points + (figure.form in ("fraction", "mixed")) * article - self._led_strongly(at) * 2

    def led(self, at: int) -> bool:
        """Whether "gets", "take it to", "calls for" or the like leads up to the figure at a token."""
        return self._led_strongly(at)

    def _led(self, at: int) -> int:
        return 3 if self._led_strongly(at) else 2 if self._leads("pointing", at) else int(self._leads("weak", at))

    def _led_strongly(self, at: int) -> bool:
        return self._leads("strong", at)

    def _leads(self, group: str, at: int) -> bool:
        """Whether words of the group lead up to the figure, with nothing but fillers between."""
        while at > 0 and self._talk.text(at - 1) in LEADING:
            at -= 1
        return any(end == at for _, end in self._bare.between(group, at - 5, at))

    def _named_after(self, end: int) -> bool:
        """"18 for these", "21 on the rod nut", "65 over there"."""
        if self._bare.has("place", end, end + 3):
            return True
        if self._talk.text(end) not in ("on", "for"):
            return False
        pointed = self._talk.text(end + 1) in ("these", "those", "them", "this", "that", "each", "both", "all", "it", "the")
        return pointed and (self._talk.text(end + 1) != "the" or self._near(self._fasteners, end, end + 6) or self._near(self._things, end, end + 6))

    def _on_a_drive(self, end: int) -> bool:
        """"27 on the big bar": the size of the socket on it."""
        return self._talk.text(end) == "on" and (self._near(self._drives, end, end + 5) or self._bare.has("bar", end, end + 5))

    def _on_a_head(self, end: int) -> int:
        flats = self._talk.texts[end : end + 6]
        return 4 * (self._talk.text(end) == "on" and any(word in ("flats", "flat", "head", "heads", "hex", "tool", "socket") for word in flats))

    def _removing(self, at: int, end: int) -> bool:
        low, high = self._talk.clause(at, 10, 10)
        low = max(low, self._last_torque_before(at))
        return self._bare.has("removing", low, min(high, end + 9)) and not self._talk.cues.has("tighten", low, high)

    def _last_torque_before(self, at: int) -> int:
        i = bisect_left(self._torques, at)
        return self._torques[i - 1] if i else 0

    @staticmethod
    def _near(places: Sequence[int], low: int, high: int) -> bool:
        return bisect_left(places, max(0, low)) < bisect_left(places, high)
