"""The figures of a recording in their order: which comes next, and which is said in place of another."""

from bisect import bisect_left
from collections.abc import Sequence

from witnessmark.reading.figures import Figure, Talk

CORRECTED_REACH = 16  # tokens after a figure in which the one said instead stands
OPENING = frozenset({"uh", "um", "er", "erm", "oh", ",", ".", "but"})  # before words of correction


class FigureRow:
    """Figures by their starts."""

    def __init__(self, talk: Talk, figures: Sequence[Figure]) -> None:
        self._talk = talk
        self._figures = sorted(figures, key=lambda figure: figure.start)
        self._starts = [figure.start for figure in self._figures]

    def between(self, start: int, end: int) -> Sequence[Figure]:
        """Figures that start in tokens start..end (exclusive)."""
        return self._figures[bisect_left(self._starts, start) : bisect_left(self._starts, end)]

    def following(self, figure: Figure, reach: int) -> Figure | None:
        """The next figure, if it starts at most `reach` tokens behind."""
        i = bisect_left(self._starts, figure.end)
        return self._figures[i] if i < len(self._figures) and self._starts[i] - figure.end <= reach else None

    def angle_next(self, figure: Figure) -> bool:
        """ "nineteen, half a turn": the size, then how far."""
        following = self.following(figure, 0)
        return following is not None and "turn" in following.labels

    def corrected(self, figure: Figure) -> bool:
        """Whether it is taken back, or said in place of one that is."""
        i = bisect_left(self._starts, figure.start)
        before = self._figures[i - 1] if i else None
        instead = before is not None and figure.start - before.start <= CORRECTED_REACH + 2 and self._taken_back(before)
        return instead or self._taken_back(figure)

    def _taken_back(self, figure: Figure) -> bool:
        """Whether words of correction follow at once, and another figure soon."""
        following = self.following(figure, CORRECTED_REACH)
        if following is None:
            return False
        texts, corrections = self._talk.texts, self._talk.cues.between("correction", figure.end, following.start)
        strong = any(texts[start:end] != ("no",) for start, end in corrections) or following.start - figure.end <= 3
        return strong and any(all(word in OPENING for word in texts[figure.end : start]) for start, _ in corrections)

    def enumerated(self, figure: Figure) -> bool:
        """Whether two more figures stand around in the same pattern, "N on the ..."."""
        if self._talk.text(figure.end) not in ("on", "for"):
            return False
        near = self.between(figure.start - 20, figure.end + 20)
        return sum(self._talk.text(other.number_end) in ("on", "for") and not other.labels for other in near) > 2

    def one_or_other(self, figure: Figure) -> bool:
        """ "Four or five pumps": a number of what is named behind the second."""
        if self._talk.text(figure.end) != "or":
            return False
        following = self.following(figure, 1)
        return following is not None and self._talk.text(following.end).endswith("s")
