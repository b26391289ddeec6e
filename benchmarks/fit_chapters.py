"""The weights of data/procedure/chapters.toml learnt anew, and how well such weights divide a recording they were learnt without.

usage: python benchmarks/fit_chapters.py [FOLDER ...]

Needs scipy. The weights are those under which the divisions made by hand (gold.json) are likeliest, held near 0 by a
penalty on their squares. Each recording is then divided by weights learnt from the others. The words and the other
constants of chapters.py were chosen with all recordings in view, so expect a little less of a new one.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from accuracy import DEFAULT, OTHERWISE, SLACK, recordings
from scoring import paired, window_diff
from witnessmark.examination import examine, values_of
from witnessmark.procedure.chapter_cues import find_places
from witnessmark.procedure.chapters import Divisions, choose, weights
from witnessmark.procedure.find import survey
from witnessmark.procedure.spoken import Spoken

PENALTY = 0.3
NAMES = tuple(weights())
CUES = tuple(name for name in NAMES if name not in ("mark", "longer", "off"))


class Recording:
    """One recording made ready: what a mark at each place and a chapter between any two of them would count."""

    def __init__(self, folder: Path) -> None:
        examined = examine(folder)
        reading = examined.reading
        gold = json.loads((folder / "gold.json").read_text(encoding="utf-8"))
        project = examined.project
        values = values_of(reading.mentions, examined.table, project.title)
        spoken = Spoken(reading.speech, tuple(reading.sightings), values, project.machine.kind or "")
        found = survey(spoken)
        places = find_places(spoken, found.tasks, found.lists, found.talk)
        self.name, self.end, self.size = folder.name, spoken.speech.tokens[-1].end, len(places)
        self.times = np.array([place.start for place in places])
        self.gold, self.duration = [fact["t"] for fact in gold["chapters"][1:]], gold["duration"]
        self.slack = SLACK.get(reading.speech.transcript.format, OTHERWISE)[1]
        self.marks = np.array([[1.0, *(place.cues.get(name, 0.0) for name in CUES)] for place in places])
        self.marks[0] = 0.0
        divisions = Divisions(places, self.end, weights())
        self.off = np.full((self.size, self.size + 1), np.nan)
        for end in range(1, self.size + 1):
            for first in range(divisions.reach(end), end):
                self.off[first, end] = divisions.off(first, end)
        self.true = self._counted(self._nearest())

    def _nearest(self) -> list[int]:
        """The places nearest to the marks made by hand."""
        return sorted({0, *(1 + int(np.abs(self.times[1:] - time).argmin()) for time in self.gold)})

    def _counted(self, chosen: list[int]) -> np.ndarray:
        off = np.array([self.off[a, b] for a, b in zip(chosen, [*chosen[1:], self.size], strict=True)])
        return np.concatenate([self.marks[chosen].sum(0), [np.nansum(off), -np.nansum(off**2)]])

    def likelihood(self, weight: np.ndarray) -> tuple[float, np.ndarray, np.ndarray]:
        """Logarithm of the likelihood of the division made by hand, its slope, and the chance of each place."""
        mark = np.append(self.marks @ weight[:-2], 0.0)
        length = np.where(np.isnan(self.off), -np.inf, weight[-2] * self.off - weight[-1] * self.off**2)
        before, after = np.zeros(self.size + 1), np.zeros(self.size + 1)
        for end in range(1, self.size + 1):
            before[end] = log_sum(before[:end] + length[:end, end]) + mark[end]
        for first in range(self.size - 1, -1, -1):
            after[first] = log_sum(length[first, first + 1 :] + mark[first + 1 :] + after[first + 1 :])
        between = np.exp(before[:-1, None] + length + (mark + after)[None, :] - before[-1])
        chance = np.append(0.0, np.exp(before[1:-1] + after[1:-1] - before[-1]))
        off = np.nan_to_num(self.off)
        expected = np.concatenate([chance @ self.marks, [(between * off).sum(), -(between * off**2).sum()]])
        return float(weight @ self.true - before[-1]), self.true - expected, chance

    def scored(self, weight: np.ndarray) -> tuple[int, int, float]:
        """Marks found and set, and WindowDiff, of the division by some weights."""
        found = [float(self.times[n]) for n in choose(self.times, self.end, self.likelihood(weight)[2])][1:]
        pairs = paired([{"t": t} for t in self.gold], [{"start": t} for t in found], lambda *_: True, self.slack)
        return len(pairs), len(found), window_diff(self.gold, found, self.duration)


def log_sum(logs: np.ndarray) -> float:
    most = logs.max()
    return float(most + np.log(np.exp(logs - most).sum()))


def learnt(those: list[Recording], start: np.ndarray) -> np.ndarray:
    """The weights under which the divisions made by hand are likeliest."""

    def loss(weight: np.ndarray) -> tuple[float, np.ndarray]:
        parts = [one.likelihood(weight) for one in those]
        value = PENALTY * float(weight @ weight) - sum(part[0] for part in parts)
        return value, 2 * PENALTY * weight - sum(part[1] for part in parts)

    return np.asarray(minimize(loss, start, jac=True, method="L-BFGS-B").x)


def printed(name: str, gold: int, scores: list[tuple[int, int, float]]) -> None:
    hits, said, difference = (sum(part) for part in zip(*scores, strict=True))
    print(
        f"{name}: {hits}/{gold} found, {said} set, F1 {2 * hits / max(1, gold + said):.3f}, WindowDiff {difference / len(scores):.3f}",
        flush=True,
    )


def main() -> int:
    folders = [Path(argument) for argument in sys.argv[1:]] or [folder for folder in DEFAULT if folder.exists()]
    all_of_them = [Recording(folder) for folder in recordings(folders)]
    weight = learnt(all_of_them, np.zeros(len(NAMES)))
    print(
        "\n".join(f"{name} = {value:.2f}" for name, value in zip(("mark", *CUES, "longer", "off"), weight, strict=True))
    )
    kept_back = []
    for one in all_of_them:
        kept_back.append(one.scored(learnt([other for other in all_of_them if other is not one], weight)))
        printed(f"{one.name}, kept back", len(one.gold), kept_back[-1:])
    total = sum(len(one.gold) for one in all_of_them)
    printed("each kept back", total, kept_back)
    printed("with all", total, [one.scored(weight) for one in all_of_them])
    return 0


if __name__ == "__main__":
    sys.exit(main())
