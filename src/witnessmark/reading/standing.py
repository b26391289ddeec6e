"""Whether a figure said without a unit stands for itself, and what stands around it."""

from collections.abc import Sequence
from functools import cache

from witnessmark.data import read_rows
from witnessmark.language.cues import Cues, find_cues
from witnessmark.language.speech import SHORT_PAUSE
from witnessmark.reading.figure_row import FigureRow
from witnessmark.reading.figures import Figure, Talk, stands_between
from witnessmark.reading.focus import word_set
from witnessmark.reading.sightings import Sighting

LEADING = frozenset({"uh", "um", "er", "about", "only", "just", "like", "exactly", "roughly", "around", "at", ","})
MOST_COUNTED = 12  # nobody counts more bolts aloud: "give it twenty two" [next sentence] "callipers ..."


@cache
def verbs() -> frozenset[str]:
    """Verbs of a repair in their base form."""
    return frozenset(row["verb"] for row in read_rows("vocabulary/actions.csv"))


class Standing:
    """The surroundings of the figures of one recording. fasteners, things: tokens where they are named. title: words of its title."""

    def __init__(
        self,
        talk: Talk,
        figures: Sequence[Figure],
        sightings: Sequence[Sighting],
        fasteners: Sequence[int],
        things: Sequence[int],
        title: frozenset[str],
    ) -> None:
        self.row = FigureRow(talk, figures)
        self._talk, self._title = talk, title
        self._starts = {figure.start for figure in figures}
        self._free: Cues = find_cues(talk.texts, "after")
        self._bare: Cues = talk.bare_cues
        self._sizes: Cues = talk.size_cues
        self.fasteners, self.things = fasteners, things
        self._named = {s.start: s for s in sightings}

    def belongs(self, figure: Figure) -> bool:
        """Whether it is the number of something, part of a name, or counts what follows."""
        telling = self._talk.text(figure.start - 1) in word_set("telling_figures")
        numbered = not telling and self._bare.has("numbered", figure.start - 2, figure.start)
        named = numbered or self._is_name(figure) or self._is_change(figure)
        return named or self.counts_next(figure) or self.row.one_or_other(figure)

    def free(self, figure: Figure) -> bool:
        """Whether nothing follows that the figure would count."""
        following = self._talk.text(figure.end)
        if self._talk.speech.pauses[figure.end - 1] >= SHORT_PAUSE or (
            is_fraction(figure) and stands_between(self.fasteners, figure.end, figure.end + 3)
        ):
            return True
        if self.recap(figure) and (
            self.named_within(figure.start, 3) or stands_between(self.things, figure.end, figure.end + 3)
        ):
            return True
        if self.listed(figure):
            return True
        if figure.low > MOST_COUNTED and self.led(figure.start):
            return True
        if self.row.angle_next(figure) or (figure.low > 1 and self._one_thing_next(figure)):
            return True
        verb = following in verbs() or (following.endswith("ed") and self._talk.lemma(figure.end) in verbs())
        if figure.low > 1 and verb and not self._sizes.has("fastener", figure.end, figure.end + 1):
            return True  # "it's a 15 spin her off": what is counted would be in the plural
        return following in ("", ".", ",", "?", "!", ")", ";", "s") or any(
            start == figure.end for start, _ in self._free.between("free", figure.end, figure.end + 3)
        )

    def _one_thing_next(self, figure: Figure) -> bool:
        """ "Strap twelve | green wire": what is named next is one thing, and no figure of more counts it."""
        named = self._named.get(figure.end) or self._named.get(figure.end + 1)
        if named is None or named.kind not in ("part", "supply") or figure.end in self._starts:
            return False
        return not any(word.endswith("s") for word in self._talk.texts[figure.end : named.end])

    def counts_next(self, figure: Figure) -> bool:
        """ "four bolts and four nuts": a number, and at once so many fasteners, with no figure of their own behind them."""
        named = stands_between(self.fasteners, figure.end, figure.end + 1) and self._talk.text(figure.end).endswith("s")
        told = self.led(figure.start) or self.leads("weak", figure.start)  # "the cover's ten, plugs fifteen"
        joined = self._talk.text(figure.start - 1) == "and"
        return named and (joined or not told) and 1 < figure.low <= MOST_COUNTED and figure.end + 1 not in self._starts

    def _is_name(self, figure: Figure) -> bool:
        """ "the Teasel 28" where the title has both words; "in my twenties"."""
        if self._talk.text(figure.number_end - 1).endswith("ties") and self._talk.text(figure.start - 2) == "in":
            return True
        return self._talk.text(figure.start - 1) in self._title and f"{figure.low:f}" in self._title

    def _is_change(self, figure: Figure) -> bool:
        """ "Eleven pounds forty": the pence of a price."""
        before, money = self._talk.texts[max(0, figure.start - 2) : figure.start], word_set("moneys")
        priced = bool(before) and before[-1] in money and before[0] not in ("inch", "foot", "feet")
        return priced and self._talk.text(figure.end) not in ("on", "for")

    def listed(self, figure: Figure) -> bool:
        """Whether it stands in a row of things with their figures: "plug eight clamp six caliper seven"."""
        if not self.named_within(figure.start, 2):
            return False
        near = self.row.between(figure.start - 10, figure.end + 10)
        free = [other for other in near if not other.labels and not self.counts_next(other)]
        return sum(self.named_within(other.start, 2) for other in free) > 2

    def named_within(self, at: int, reach: int) -> bool:
        """Whether a fastener or what has a torque is named at most `reach` tokens before a token."""
        return stands_between(self.fasteners, at - reach, at) or stands_between(self.things, at - reach, at)

    def recap(self, figure: Figure) -> bool:
        """Whether the speaker says the values once more and names something here."""
        at, end = figure.start, figure.end
        named = stands_between(self.fasteners, at - 4, end + 6) or stands_between(self.things, at - 4, end + 6)
        return named and self._bare.has("recap", max(0, at - 45), at)

    def led(self, at: int) -> bool:
        """Whether "gets", "take it to", "calls for" or the like leads up to the figure at a token."""
        return self.leads("strong", at)

    def leads(self, group: str, at: int) -> bool:
        """Whether words of the group lead up to the figure, with nothing but fillers between."""
        while at > 0 and self._talk.text(at - 1) in LEADING:
            at -= 1
        return any(end == at for _, end in self._bare.between(group, at - 5, at))


def is_fraction(figure: Figure) -> bool:
    """Whether it is a fraction as tools have it: 5/16, not a half."""
    return figure.form in ("fraction", "mixed") and figure.low * 4 % 1 != 0 and figure.low * 64 % 1 == 0
