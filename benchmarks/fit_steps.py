"""The weights of data/procedure/telling.toml learnt anew, and how well they tell full steps of recordings they were learnt without.

usage: python benchmarks/fit_steps.py [FOLDER ...]

Needs scipy. A step is full where it says what a step of gold.json says (scoring.py). The weights are those under which
that is likeliest, held near 0 by a penalty on their squares. Each recording is then judged by weights learnt from the
others: printed is how many steps are at least so likely, and how many of them are right.
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from accuracy import DEFAULT, OTHERWISE, SLACK, recordings
from scoring import paired, says_the_same
from witnessmark.examination import examine, values_of
from witnessmark.procedure.find import survey
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.steps import done_in_one_go, draft_of
from witnessmark.procedure.telling import marks, weights

PENALTY = 5.0
NAMES = tuple(weights())
LEVELS = (0.2, 0.3, 0.4, 0.5, 0.6)


def judged(folder: Path) -> tuple[np.ndarray, np.ndarray]:
    """What each step of one recording tells, and whether it is right."""
    examined = examine(folder)
    reading, project = examined.reading, examined.project
    gold = json.loads((folder / "gold.json").read_text(encoding="utf-8"))["steps"]
    values = values_of(reading.mentions, examined.table, project.title)
    spoken = Spoken(reading.speech, tuple(reading.sightings), values, project.machine.kind or "")
    drafts = [(group, draft_of(spoken, group)) for group in done_in_one_go(spoken, survey(spoken).tasks)]
    told = [
        (group, {"start": spoken.speech.tokens[draft.start_token].start, "text": draft.text or draft.warned[0]})
        for group, draft in drafts
        if draft is not None
    ]
    slack = 1.5 * SLACK.get(reading.speech.transcript.format, OTHERWISE)[1]
    right = {id(step) for _, step in paired(gold, [step for _, step in told], says_the_same, slack)}
    rows = [[1.0, *(marks(spoken, group).get(name, 0.0) for name in NAMES[1:])] for group, _ in told]
    return np.array(rows), np.array([float(id(step) in right) for _, step in told])


def learnt(those: list[tuple[np.ndarray, np.ndarray]]) -> np.ndarray:
    """The weights under which what is right is likeliest."""
    rows, right = np.concatenate([a for a, _ in those]), np.concatenate([b for _, b in those])

    def loss(weight: np.ndarray) -> tuple[float, np.ndarray]:
        total = rows @ weight
        value = np.logaddexp(0.0, total).sum() - right @ total + PENALTY * float(weight[1:] @ weight[1:])
        slope = rows.T @ (1 / (1 + np.exp(-total)) - right)
        slope[1:] += 2 * PENALTY * weight[1:]
        return float(value), slope

    return np.asarray(minimize(loss, np.zeros(len(NAMES)), jac=True, method="L-BFGS-B").x)


def main() -> int:
    folders = [Path(argument) for argument in sys.argv[1:]] or [folder for folder in DEFAULT if folder.exists()]
    those = [judged(folder) for folder in recordings(folders)]
    print("\n".join(f"{name} = {value:.2f}" for name, value in zip(NAMES, learnt(those), strict=True)))
    chances, right = [], []
    for n, (rows, ends) in enumerate(those):
        weight = learnt(those[:n] + those[n + 1 :])
        chances.append(1 / (1 + np.exp(-(rows @ weight))))
        right.append(ends)
    likely, ends = np.concatenate(chances), np.concatenate(right)
    print(f"{len(ends)} steps, {ends.mean():.2f} right; with weights learnt from the other recordings:")
    for level in LEVELS:
        kept = likely >= level
        print(f"at least {level}: {kept.sum()} steps, {ends[kept].mean():.2f} right; below: {ends[~kept].mean():.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
