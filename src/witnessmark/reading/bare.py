"""Figures said without a unit: a torque, a tool size or neither, by the words that lead up to them and follow.

Each piece of evidence gives points (data/bare_points.toml); what has most, and enough, is meant. Nothing looks at how large the figure is.
"""

from bisect import bisect_left, insort
from collections.abc import Sequence
from decimal import Decimal
from functools import cache
from typing import Literal

from witnessmark.data import read_toml
from witnessmark.language.cues import Cues
from witnessmark.reading.declared import Declared
from witnessmark.reading.figures import Figure, Talk, stands_between
from witnessmark.reading.focus import word_set
from witnessmark.reading.sightings import Sighting
from witnessmark.reading.sizes import FEW, LARGEST_MM
from witnessmark.reading.standing import MOST_COUNTED, Standing, is_fraction, verbs

LATELY = 25  # tokens back in which what a sentence of one figure is said of is named
EARLY = 3  # torques told before which a recording still takes things apart
NAMED_LATELY = 12  # tokens back in which a fastener is named whose torque is told in the unit declared
Kind = Literal["torque", "tool_size"]


@cache
def points(kind: Kind) -> dict[str, int]:
    """Points of each piece of evidence for one kind."""
    table: dict[str, int] = read_toml("bare_points.toml")[kind]
    return table


class BareRules:
    """The points over one recording. declared: the unit of torque that the speaker told for all of it."""

    def __init__(
        self,
        talk: Talk,
        figures: Sequence[Figure],
        sightings: Sequence[Sighting],
        standing: Standing,
        declared: Declared | None,
    ) -> None:
        self._talk, self._standing, self._declared = talk, standing, declared
        self._starts, self._ends = {figure.start for figure in figures}, {figure.end for figure in figures}
        self._bare: Cues = talk.bare_cues
        self._sizes: Cues = talk.size_cues
        self._fasteners, self._things = standing.fasteners, standing.things
        self._drives = sorted(s.start for s in sightings if "sizing:drive" in s.traits)
        self._head_ends = {s.end for s in sightings if "sizing:head" in s.traits}
        self._torques: list[int] = []
        self._sized: list[int] = []
        self._told: list[tuple[int, Decimal, str]] = []
        self._torque_ends: dict[int, Decimal] = {}  # torques with their unit, by the tokens behind them

    def note(self, kind: str, figure: Figure) -> None:
        """Tells of a figure whose kind is known."""
        of_tool = figure.is_range and self._talk.cues.has("torque_tool", figure.start - 25, figure.start)
        if kind in ("torque", "tool_size") and not of_tool:
            insort(self._torques if kind == "torque" else self._sized, figure.start)
            insort(self._told, (figure.start, figure.low, kind))
        if kind == "torque" and figure.labels:
            self._torque_ends[figure.end] = figure.low

    def decide(self, figure: Figure, otherwise: bool) -> Kind | None:
        """What a bare figure is, if it is either. otherwise: a neighbour tells that something else is measured here."""
        if not self.stands_free(figure):
            return None
        torque, size = self.total("torque", figure), self.total("tool_size", figure)
        if torque >= points("torque")["enough"] + otherwise * points("torque")["otherwise"] and torque > size:
            return "torque"
        return "tool_size" if size >= points("tool_size")["enough"] and size >= torque else None

    def stands_free(self, figure: Figure) -> bool:
        """Whether no noun follows that the figure would count, and nothing before makes it a number of something."""
        return not self._standing.belongs(figure) and (
            self._said_before(figure) is not None or self._standing.free(figure)
        )

    def total(self, kind: Kind, figure: Figure) -> int:
        """Points of one reading of a figure."""
        evidence = self._torque_evidence(figure) if kind == "torque" else self._size_evidence(figure)
        return sum(points(kind)[name] for name, there in evidence.items() if there)

    def _torque_evidence(self, figure: Figure) -> dict[str, bool]:
        talk, at, end = self._talk, figure.start, figure.end
        if self._no_torque(figure):
            return {}
        low, _ = talk.clause(at, 16, 0)
        led, recap = self._standing.led(at), self._standing.recap(figure)
        beside = stands_between(self._torques, at - 14, end + 12)
        pointing = not led and self._standing.leads("pointing", at)
        sentence = talk.is_sentence(at, end)
        pointed = pointing and not self._nothing_torqued(at, end)
        return {
            "led": led,
            "led_of_nothing": led
            and not stands_between(self._fasteners, at - 30, end + 8)
            and not stands_between(self._things, at - 30, end + 8),
            "pointed": pointed,
            "led_weakly": not led and not pointing and self._standing.leads("weak", at),
            "fastener_is": talk.text(at - 1) in ("is", "are", "'s", "were", "was")
            and (stands_between(self._fasteners, at - 4, at) or stands_between(self._things, at - 4, at)),
            "aired": self._aired(at, end),
            "tightening": talk.cues.has("tighten", low, at),
            "named_after": self._named_after(end),
            "is_what": self._bare.has("is_what", end, end + 3),
            "angle_follows": self._goes_on_by_angle(end),
            "recap": recap,
            "recap_named": recap and self._standing.named_within(at, 3),
            "enumerated": self._standing.row.enumerated(figure) or self._standing.listed(figure),
            "figure_follows": not led and not sentence and self._figure_follows(figure),
            "sentence_of_fastener": sentence and self._told_of_fastener(at),
            "torque_beside": beside,
            "torque_before": not beside and stands_between(self._torques, at - 40, at),
            "corrected": self._standing.row.corrected(figure),
            "again": self._said_before(figure) == "torque",
            "fastener_before": stands_between(self._fasteners, at - 7, at),
            "named_now": stands_between(self._fasteners, at - 1, at) and bisect_left(self._torques, at) >= EARLY,
            "thing_near": stands_between(self._things, at - 9, end + 6),
            "given": stands_between(self._fasteners, at - 6, at) and self._bare.has("give", at - 7, at),
            "decimal": figure.form in ("decimal", "mixed"),
            "decimal_of_fastener": figure.form in ("decimal", "mixed")
            and bisect_left(self._torques, at) > 0
            and (stands_between(self._fasteners, at - 14, at) or stands_between(self._things, at - 14, at)),
            "size_before": stands_between(self._sized, at - 4, at),
            "article": talk.text(at - 1) in word_set("figure_articles"),
            "removing": self._removing(at, end),
            "measured": talk.cues.has("measured", low, at),
            "spanning": self._bare.has("spanning", end, end + 2) and not self._sizes.has("on_the", end, end + 3),
            "apart": not led and bisect_left(self._torques, at) == 0 and self._nothing_torqued(at, end),
            "declared": self._declared_here(at),
            "behind_torque": self._behind_torque(figure),
            "untorqued": self._bare.has("untorqued", at - 6, end + 4) or self._bare.has("of_which", end, end + 3),
        }

    def _behind_torque(self, figure: Figure) -> bool:
        """ "Lock nut, twenty newton metres, thirteen": the torque with its unit, and at once the size; not said again."""
        torque = self._torque_ends.get(figure.start)
        return torque not in (None, figure.low) and self._talk.text(figure.end) not in ("on", "for")

    def _no_torque(self, figure: Figure) -> bool:
        """Whether it is a fraction, a size of several, how many there are, or what is printed on a packet."""
        talk, at, end = self._talk, figure.start, figure.end
        counts = talk.text(end) in ("of", "s") or talk.texts[end : end + 2] == ("a", "side")
        most = MOST_COUNTED if talk.text(at - 1) == "all" else FEW
        counted = talk.text(at - 1) in word_set("counting_words") and figure.low <= most
        printed = self._bare.has("printed", end, end + 4)
        return self._plural(figure) or figure.form == "fraction" or counts or counted or printed

    def _declared_here(self, at: int) -> bool:
        """Whether the speaker told the unit of all bare figures, torques are being told and a fastener was just named."""
        declared = self._declared is not None and at >= self._declared.since
        return declared and bisect_left(self._torques, at) > 0 and self._standing.named_within(at, NAMED_LATELY)

    def _told_of_fastener(self, at: int) -> bool:
        """ "Bolts in by hand. Hundred and ten.", not "nought point eight. Point eight."."""
        told = at - 1 not in self._ends and bisect_left(self._torques, at) > 0
        return told and self._standing.named_within(at, LATELY)

    def _goes_on_by_angle(self, end: int) -> bool:
        """ "Forty plus ninety degrees", "and a quarter turn"."""
        talk = self._talk
        joined = talk.text(end) in ("plus", "and", "then", "+")
        angle = joined and any(word in word_set("angle_words") for word in talk.texts[end + 1 : end + 8])
        return angle or (talk.text(end) == "plus" and end + 1 in self._starts)

    def _size_evidence(self, figure: Figure) -> dict[str, bool]:
        talk, at, end = self._talk, figure.start, figure.end
        if self._no_size(figure):
            return {}
        article = talk.text(at - 1) in word_set("figure_articles")
        fastener = stands_between(self._fasteners, at - 12, end + 8) or stands_between(self._things, at - 12, end + 8)
        with_the = any(stop == at for _, stop in self._bare.between("with_the", at - 4, at))
        led, nothing = self._standing.led(at), self._nothing_torqued(at, end)
        removing = self._removing(at, end) and fastener
        removing_phase = nothing and bisect_left(self._torques, at) < EARLY
        return {
            "article": article and fastener,
            "with_the": article and with_the,
            "with_the_alone": article and talk.text(at - 2) == "with" and not fastener,
            "article_on": article and talk.text(end) == "on",
            "on_a_drive": (talk.text(end) == "on" or (talk.text(end) in ("and", "with") and fastener and nothing))
            and (stands_between(self._drives, end, end + 5) or self._bare.has("bar", end, end + 5)),
            "on_a_head": talk.text(end) in ("on", "in")
            and any(word in word_set("head_shapes") for word in talk.texts[end : end + 5])
            and (article or "end" not in talk.texts[end : end + 5]),
            "removing": removing,
            "removing_on": removing and talk.text(end) in ("on", "and", "back"),
            "on_thing": removing_phase and talk.text(end) not in ("each", "apiece") and self._named_after(end),
            "torque_follows": stands_between(self._torques, end, end + 9) and talk.text(at - 1) != "to",
            "on_it_then_torque": talk.text(end) == "on"
            and talk.text(end + 1) in ("it", "them", "that", "those", "there")
            and stands_between(self._torques, end, end + 9),
            "behind_torque": self._behind_torque(figure),
            "torque_at_once": stands_between(self._torques, end, end + 1),
            "figure_follows": fastener and not led and self._figure_follows(figure),
            "plural": self._plural(figure),
            "fraction": is_fraction(figure) and fastener,
            "after_tool": at in self._head_ends
            or (talk.text(at - 1) == "," and at - 1 in self._head_ends)  # "spanner, 13"
            or any(stop == at for _, stop in self._sizes.between("head", at - 3, at))
            or (talk.text(at - 1) in ("is", "'s") and self._sizes.has("head", at - 5, at - 1))
            or self._sizes.has("plural_tools", at - 2, at),
            "pointed": self._standing.leads("pointing", at) and fastener and nothing,
            "fastener_at_once": stands_between(self._fasteners, at - 3, at),
            "counted_fastener": (nothing or removing) and self._counted_fastener(at),
            "counted_them": (nothing or removing) and self._some_of_them(at) and self._removing(at, end),
            "again": self._said_before(figure) == "tool_size",
            "nothing_torqued": nothing and fastener,
            "measured": talk.cues.has("measured", talk.clause(at, 8, 0)[0], at),
            "led": led,
        }

    def _no_size(self, figure: Figure) -> bool:
        """Whether it is a count, a point of time, part of a range or anything else that is written on no tool."""
        talk, at, end = self._talk, figure.start, figure.end
        if figure.form == "decimal" or figure.low * 64 % 1 or self._bare.has("unsized", end, end + 3):
            return True
        if (
            figure.low > LARGEST_MM
            or (talk.text(at - 1) in word_set("counting_words") and not self._some_of_them(at))
            or (figure.form == "mixed" and not is_fraction(figure))
        ):
            return True
        counted = self._sizes.has("counted", end, end + 4)  # "fourteen, one each side"
        if end in self._starts and not counted and not stands_between(self._torques, end, end + 1):
            return True  # "two twelves"
        if (
            figure.form == "fraction"
            and not is_fraction(figure)
            and talk.text(at - 1) not in word_set("figure_articles")
        ):
            return True  # "half a cup"
        if talk.text(at - 1) in ("the", "in") and figure.low <= FEW and figure.form == "cardinal":
            return True  # "the two on the lock": the ones spoken of; "cut in two"
        if figure.low <= MOST_COUNTED and self._bare.has("counting", at - 3, at):
            return True  # "there's only four on this"
        if figure.low <= 0 or talk.text(at - 1) in ("plus", "minus"):
            return True  # "it's plus eight out there"
        if talk.text(at - 1) in verbs() and figure.low <= MOST_COUNTED:
            return True  # "loosen three and leave one"
        return talk.text(at - 1) == "to" and at - 1 in self._ends  # "an eighth to five sixteenths"

    def _said_before(self, figure: Figure) -> str | None:
        """ "thirteen again": what that figure was when it was said last; None where it is not told as one said before."""
        again = self._talk.text(figure.end) == "again" or self._talk.texts[figure.start - 2 : figure.start] == (
            "same",
            "again",
        )
        if not again:
            return None
        before = {kind for start, low, kind in self._told if start < figure.start and low == figure.low}
        return "tool_size" if "tool_size" in before else next(iter(before), None)

    def _aired(self, at: int, end: int) -> bool:
        """Whether tyres and gauges are spoken of, and no fastener since."""
        low = max((i + 1 for i in self._fasteners[: bisect_left(self._fasteners, at)][-1:]), default=0)
        return self._bare.has("aired", max(low, at - 16), end + 5)

    def _counted_fastener(self, at: int) -> bool:
        """ "two bolts, ten", "three bolts in it 17", "the four little ones 10": how many, of what, and then the size."""
        end = at
        while end > at - 4 and self._talk.text(end - 1) in word_set("counted_fillers"):
            end -= 1
        if not (stands_between(self._fasteners, end - 1, end) or self._talk.text(end - 1) == "ones"):
            return False
        return any(
            self._talk.text(i) in ("one", "single") or i in self._starts or self._talk.text(i) == "couple"
            for i in range(end - 4, end - 1)
        )

    def _some_of_them(self, at: int) -> bool:
        """ "The seat comes out, it's four of them, sixteen": how many, and then the size."""
        return self._talk.texts[at - 2 : at] in (("of", "them"), ("of", "those")) and at - 3 in self._starts

    def _figure_follows(self, figure: Figure) -> bool:
        """Whether the next figure comes at once, is bare or a torque, and nothing else is named between."""
        following = self._standing.row.following(figure, 6)
        if following is None or following.start == figure.end:
            return False
        torque = bool(following.labels) and bisect_left(self._torques, following.start) < bisect_left(
            self._torques, following.start + 1
        )
        named = stands_between(self._fasteners, figure.end, following.start) or stands_between(
            self._things, figure.end, following.start
        )
        return (
            (not following.labels or torque)
            and not named
            and following.low != figure.low
            and not following.is_range
            and self._talk.text(following.start - 1) not in ("or", "to", "of", "the", "those", "these")
        )

    def _nothing_torqued(self, at: int, end: int) -> bool:
        return not stands_between(self._torques, at - 60, end + 40) and not self._talk.cues.has(
            "tighten", max(0, at - 40), end + 10
        )

    def _plural(self, figure: Figure) -> bool:
        last = self._talk.text(figure.number_end - 1)
        return (last[-1:] == "s" and last[-2:-1].isalpha() and last != "six") or self._talk.text(figure.end) == "s"

    def _named_after(self, end: int) -> bool:
        """ "18 for these", "21 on the rod nut", "65 over there"."""
        if any(
            self._talk.text(stop) not in ("'s", "is", "are", "was", "were")
            for _, stop in self._bare.between("place", end, end + 3)
        ):
            return True
        if self._talk.text(end) not in ("on", "for"):
            return False
        pointed = self._talk.text(end + 1) in (
            "these",
            "those",
            "them",
            "this",
            "that",
            "each",
            "both",
            "all",
            "it",
            "the",
        )
        return pointed and (
            self._talk.text(end + 1) != "the"
            or stands_between(self._fasteners, end, end + 6)
            or stands_between(self._things, end, end + 6)
        )

    def _removing(self, at: int, end: int) -> bool:
        low, high = self._talk.clause(at, 10, 10)
        i = bisect_left(self._torques, at)
        low = max(low, self._torques[i - 1] if i else 0)
        return self._bare.has("removing", low, min(high, end + 9)) and not self._talk.cues.has("tighten", low, high)
