"""Which figures are the size of a socket, wrench, key or bit."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from witnessmark.language.cues import Cues
from witnessmark.language.speech import breaks_after, is_word
from witnessmark.reading.figures import Figure, Talk, stands_between
from witnessmark.reading.sightings import Sighting
from witnessmark.reading.standing import Standing
from witnessmark.units import dimension

_CODE = re.compile(r"(tp|ph|pz|t|e)(\d{1,3})$")
POINTING = frozenset({"the", "those", "these"})
FEW = 4
LIMITS = frozenset({"allowed", "limit", "minimum", "maximum"})
LENGTHS = frozenset({"long", "longer", "short", "shorter", "from", "off", "gap", "in", "past", "thread", "of"})
AWAY = frozenset({"back", "proud", "deep", "apart", "away", "clear", "across", "wide", "thick", "tall"})
LARGEST_MM = 70  # no spanner of these trades is wider
SENTENCE_BEFORE = 12  # tokens back in which what a sentence of one size is said of is named
CHAIN = 12  # tokens over which a list of sizes goes on
ARTICLES = frozenset(
    {
        "a",
        "an",
        "the",
        "your",
        "my",
        "that",
        "this",
        "size",
        "and",
        "or",
        ",",
        "another",
        "nice",
        "long",
        "big",
        "old",
        "little",
        "bitty",
        "wee",
    }
)


@dataclass(frozen=True, slots=True)
class SizeSaid:
    """A tool size. start, end: tokens. system: mm, in, T, E, TP, PH or PZ."""

    start: int
    end: int
    size: Decimal
    system: str


class SizeRules:
    """The rules over one recording; `size_of` is asked about figures in order, since a list of sizes goes on from the last one."""

    def __init__(
        self,
        talk: Talk,
        figures: Sequence[Figure],
        sightings: Sequence[Sighting],
        standing: Standing,
    ) -> None:
        self._talk = talk
        self._starts = {figure.start: figure for figure in figures}
        self._torques = [f.start for f in figures if f.labels and dimension(f.labels[0]) == "torque" and not f.short]
        self._ends = {figure.number_end - 1 for figure in figures}
        self._cues: Cues = talk.size_cues
        self._heads = {s.start: s for s in sightings if "sizing:head" in s.traits}
        self._fasteners, self._things = standing.fasteners, standing.things
        self._drives = {s.start for s in sightings if "sizing:drive" in s.traits}
        self._last: SizeSaid | None = None

    def codes(self) -> list[SizeSaid]:
        """Sizes said as a letter and a number: t20, e 14, torx 25, ph2."""
        found = []
        texts = self._talk.texts
        for i, text in enumerate(texts):
            code = _CODE.match(text)
            if code and not self._is_fault(i, code[1]):
                found.append(SizeSaid(i, i + 1, Decimal(code[2]), code[1].upper()))
        return found

    def _is_fault(self, at: int, letter: str) -> bool:
        """ "it shows e25": a code on a display."""
        if self._cues.has("display", at - 5, at):
            return True
        return letter == "e" and not (
            self._cues.has("head", at - 8, at + 6) or self._cues.has("fastener", at - 12, at + 8)
        )

    def size_of(self, figure: Figure) -> SizeSaid | None:
        """The figure as a tool size, or None where it is something else."""
        found = self._read(figure)
        if found:
            self._last = found
        return found

    def note(self, said: SizeSaid) -> None:
        """Lets a list of sizes go on from this one."""
        self._last = said

    def _read(self, figure: Figure) -> SizeSaid | None:
        if figure.is_range or self.is_drive(figure) or self._talk.text(figure.start - 1) in ("#", "number", "no"):
            return None
        lettered = self._lettered(figure)
        if lettered:
            return lettered
        if not figure.labels:
            return None if self._is_timber(figure) else self._bare(figure)
        if self._plural_s(figure):
            return SizeSaid(figure.start, figure.end, figure.low, "mm")
        if figure.low > LARGEST_MM:
            return None
        if "mm" in figure.labels and figure.low == figure.low.to_integral_value():
            return self._said(figure, "mm") if self._is_metric_size(figure) else None
        if figure.labels[0] == "mm" and figure.low % 1 == Decimal("0.5") and self._singular_tool_follows(figure):
            return self._said(figure, "mm")
        if (
            "in" in figure.labels
            and figure.form in ("fraction", "mixed")
            and (
                self._singular_tool_follows(figure)
                or self._of_fastener(figure)
                or self._in_list(figure)
                or (self._talk.text(figure.end) == "on" and self._cues.has("on_the", figure.end, figure.end + 4))
            )
        ):
            return self._said(figure, "in")
        return None

    def _of_fastener(self, figure: Figure) -> bool:
        """ "bracket bolts half inch, loosen three", "the lock nut is the inch and a sixteenth"."""
        at, after = figure.start, self._talk.text(figure.end)
        length = after in AWAY or after in LENGTHS
        named = stands_between(self._fasteners, at - 1, at)
        the = self._talk.text(at - 1) == "the" and stands_between(self._fasteners, at - 8, at)
        return (named or the) and not length

    def _is_timber(self, figure: Figure) -> bool:
        """ "a two by six", "four by four": a piece of wood, or the drive of a car."""
        before, after = figure.start - 1, figure.number_end
        joined = (self._talk.text(before) == "by" and before - 1 in self._ends) or (
            self._talk.text(after) == "by" and after + 1 in self._starts
        )
        return joined and figure.form == "cardinal"

    def _plural_s(self, figure: Figure) -> bool:
        """ "two bolts, 10s": the captions write the plural like seconds."""
        if "s" not in figure.labels or self._talk.text(figure.number_end) != "s" or figure.low > LARGEST_MM:
            return False
        return stands_between(self._fasteners, figure.start - 8, figure.end + 4)

    def _said(self, figure: Figure, system: str) -> SizeSaid:
        return SizeSaid(figure.start, figure.end, figure.low, system)

    def is_drive(self, figure: Figure) -> bool:
        """ "half inch drive", "three eighths ratchet": the square of the wrench, not a head."""
        if self._cues.has("drive", figure.number_end, figure.end + 2):
            return True
        near = range(figure.end, figure.end + 4)
        drive = any(i in self._drives for i in near) and not any(
            i in self._heads for i in range(figure.end, figure.end + 2)
        )
        return drive and figure.form in ("fraction", "mixed")

    def _lettered(self, figure: Figure) -> SizeSaid | None:
        """ "t 20", "torx 25", "25 torx"."""
        before, after = self._talk.text(figure.start - 1), self._talk.text(figure.number_end)
        if figure.labels:
            return None
        if before in ("t", "e"):
            return SizeSaid(figure.start - 1, figure.number_end, figure.low, before.upper())
        lobes = ("torx", "torques")
        if self._talk.text(figure.number_end + 1) in ("bits", "drivers", "sockets", "screws"):
            return None  # "two torx bits"
        if (before in lobes and self._talk.text(figure.start - 2) not in ("t", "e")) or after in lobes:
            return SizeSaid(figure.start, figure.number_end, figure.low, "T")
        return None

    def _is_metric_size(self, figure: Figure) -> bool:
        talk, kinds = self._talk, self._talk.kind_cues
        if self._tool_follows(figure.end, 4):
            return not (talk.text(figure.end) == "thread" or talk.text(figure.end + 1) == "thread")
        lengths = ("gap", "thickness", "depth", "length")
        stop = next((i for i in range(figure.end, figure.end + 3) if not is_word(talk.text(i))), figure.end + 3)
        if any(kinds.has(kind, figure.end, stop) for kind in lengths) or talk.text(figure.end) == "of":
            return False
        if talk.text(figure.end) in AWAY and talk.text(figure.end + 1) not in (
            "it",
            "them",
            "that",
            "those",
            "out",
            "off",
            "on",
        ):
            return False  # "six millimetres back"
        if LIMITS & set(talk.texts[max(talk.clause(figure.start, 9, 0)[0], 0) : figure.start]):
            return False  # "the least you're allowed is seventeen mil"
        if talk.text(figure.start - 1) in ("over", "under", "than", "least", "most", "about", "above", "below"):
            return False
        if (
            self._cues.has("on_the", figure.end, figure.end + 4)
            or self._in_list(figure)
            or self._torque_follows(figure)
        ):
            return True
        low, high = talk.clause(figure.start, 16, 8)
        if talk.cues.has("measured", max(low, figure.start - 7), figure.start):
            return False
        named = self._cues.has("names_size", figure.start - 2, figure.start)
        if any(kinds.has(kind, max(low, figure.start - 6), figure.start) for kind in lengths) and not named:
            return False
        free = (
            talk.text(figure.end) == ""
            or talk.text(figure.end) in _AFTER_LISTED
            or not is_word(talk.text(figure.end))
            or breaks_after(talk.speech, figure.end - 1)
        )
        near = stands_between(self._fasteners, low, high)
        return near or self._talks_of_fasteners(low, high) or (named and free) or self._just_named(figure)

    def _just_named(self, figure: Figure) -> bool:
        """ "Pipe, clip, 7 mil", "six of those, 10 mil", "The trigger wire. 8 mil.": said right behind what it is the size of."""
        at = figure.start
        if self._talk.text(at - 1) == "," and (
            stands_between(self._things, at - 2, at - 1)
            or (self._talk.text(at - 2) in ("those", "these", "them") and self._talk.text(at - 3) == "of")
        ):
            return True
        return self._talk.is_sentence(at, figure.end) and stands_between(self._things, at - SENTENCE_BEFORE, at)

    def _torque_follows(self, figure: Figure) -> bool:
        """ "four bolts, 17 mm, 25 Nm": the size, then at once the torque."""
        return any(figure.end < start <= figure.end + 2 for start in self._torques)

    def _talks_of_fasteners(self, low: int, high: int) -> bool:
        return self._cues.has("fastener", low, high) or self._cues.has("head", low, high)

    def _tool_follows(self, at: int, reach: int) -> bool:
        """A tool or the head of a fastener named right after, with at most some describing words between."""
        while reach > 0:
            if (
                at in self._heads
                or (self._cues.has("head", at, at + 2) and self._begins("head", at))
                or self._begins("fastener", at)
            ):
                return True
            if not self._begins("between", at):
                return False
            at, reach = at + 1, reach - 1
        return False

    def _begins(self, group: str, at: int) -> bool:
        return any(span[0] == at for span in self._cues.between(group, at, at + 3))

    def _bare(self, figure: Figure) -> SizeSaid | None:
        """A number alone is a size before a tool's name and in a list of sizes."""
        half = figure.form == "decimal" and figure.low % 1 == Decimal("0.5")  # "a 2.5 key"
        if figure.form not in ("cardinal", "fraction", "mixed") and not half:
            return None
        if self._singular_tool_follows(figure) or self._heads_follow(figure):
            return self.bare_size(figure)
        if half:
            return None
        if self._talk.text(figure.start - 1) in POINTING and figure.low <= FEW and figure.form == "cardinal":
            return None  # "a nineteen for the two big ones"
        if self._cues.has("counted", figure.end, figure.end + 5) or (
            figure.end in self._starts and self._talk.text(figure.end).endswith("s")
        ):
            return None  # "three a side", "two twelves"
        before, after = self._talk.text(figure.start - 1), self._talk.text(figure.end)
        free = after == "" or after in _AFTER_LISTED or after in ARTICLES or figure.end in self._starts
        last = self._last
        directly = last is not None and (last.end == figure.start or (before == "," and last.end == figure.start - 1))
        if self._before_plural_tools(figure) or self._before_size(figure):
            return self.bare_size(figure)
        if free and self._cues.has("plural_tools", figure.start - 2, figure.start):
            return self.bare_size(figure)
        listed = (before in ARTICLES and free and self._in_list(figure)) or (
            directly and free and self._cues.has("plural_tools", figure.start - 30, figure.start)
        )
        return self.bare_size(figure) if listed else None

    def bare_size(self, figure: Figure) -> SizeSaid:
        """A bare figure as a size, in the system that the list goes on in."""
        found = SizeSaid(figure.start, figure.number_end, figure.low, self._system(figure))
        self._last = found
        return found

    def _singular_tool_follows(self, figure: Figure) -> bool:
        """ "a 12 deep socket", "14 wrench"; "two sockets" counts them."""
        for at in range(figure.end, figure.end + 3):
            sighting = self._heads.get(at)
            if sighting:
                return (
                    not self._talk.text(sighting.end - 1).endswith("s") or self._talk.text(sighting.end - 1) == "torx"
                )
            if self._talk.text(at) in ("socket", "wrench", "spanner", "key", "allen", "hex", "driver"):
                return True
            if self._talk.text(at) == "one" and at > figure.end and self._talk.text(figure.start - 1) in ("a", "the"):
                return True  # "a 27 deep one"
            if not self._begins("between", at):
                return False
        return False

    def _heads_follow(self, figure: Figure) -> bool:
        """ "two little seven sixteenths heads": a fraction counts no heads."""
        fraction = figure.form in ("fraction", "mixed") and figure.low * 64 % 1 == 0
        return fraction and self._talk.text(figure.end) in ("head", "heads")

    def _before_plural_tools(self, figure: Figure) -> bool:
        """ "fourteen and nineteen sockets": two sizes, not so many sockets."""
        i = figure.end
        if self._talk.text(i) in ("and", ",", "or") and i + 1 in self._starts:
            i += 2
            return any(start in (i, i + 1) for start, _ in self._cues.between("plural_tools", i, i + 4))
        joined = (
            self._talk.text(figure.start - 1) in ("and", ",", "or")
            and self._last is not None
            and self._last.end == figure.start - 1
        )
        return joined and any(start == i for start, _ in self._cues.between("plural_tools", i, i + 3))

    def _before_size(self, figure: Figure) -> bool:
        """ "a thirteen, a fourteen spanner"."""
        i = figure.end
        while self._talk.text(i) in ("a", "and", "or", ",") and i < figure.end + 3:
            i += 1
        following = self._starts.get(i)
        led = self._talk.text(figure.start - 1) in ("a", "an", "your", "my", ",", "and", "the")
        return (
            led
            and i > figure.end
            and following is not None
            and not following.labels
            and self._singular_tool_follows(following)
        )

    def _in_list(self, figure: Figure) -> bool:
        last = self._last
        if last is not None and 0 <= figure.start - last.end <= CHAIN:
            return True
        return self._cues.has("plural_tools", figure.start - 12, figure.start) or self._cues.has(
            "plural_tools", figure.end, figure.end + 8
        )

    def _system(self, figure: Figure) -> str:
        if figure.form in ("fraction", "mixed"):
            return "in"
        last = self._last
        near = last is not None and 0 <= figure.start - last.end <= CHAIN
        return last.system if last is not None and near and last.system in ("T", "E") else "mm"


_AFTER_LISTED = frozenset(
    {
        "and",
        "a",
        "an",
        "the",
        "or",
        ",",
        ".",
        "for",
        "on",
        "to",
        "that",
        "'s",
        "is",
        "here",
        "there",
        "so",
        "then",
        "with",
        "you",
        "i",
        "but",
        "too",
        "as",
        "will",
        "again",
        "each",
        "fits",
        "does",
        "all",
        "plus",
        "maybe",
        "now",
        "it",
        "get",
        "in",
    }
)
