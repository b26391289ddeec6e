"""How much of what is true of a recording is found, as one Markdown table.

usage: python benchmarks/accuracy.py [FOLDER ...] [-v]

FOLDER is an annotated recording, or holds some: repair.toml, captions, specs.csv and gold.json in each. Without one, sample_projects,
benchmarks/recordings and, where it is there, ../shared/recordings are measured. -v lists what was missed or wrong.
gold.json is opened after the recording has been examined.
"""

import json
import sys
import time
from collections.abc import Sequence
from functools import reduce
from operator import add
from pathlib import Path

from scoring import Recording, Score, items_of, score
from witnessmark.errors import InputError
from witnessmark.examination import examine
from witnessmark.publication.facts import facts_of
from witnessmark.publication.manuscript import prepare

ROOT = Path(__file__).parents[1]
DEFAULT = (ROOT / "sample_projects", ROOT / "benchmarks/recordings", ROOT.parent / "shared/recordings")
# How far the times of a caption form may be off, in seconds: of a word, and of a chapter mark.
SLACK = {"bracketed text": (8.0, 15.0), "stamped text": (3.0, 10.0)}
OTHERWISE = (2.5, 10.0)


def recordings(folders: Sequence[Path]) -> list[Path]:
    """The annotated recordings in some folders, or that they are."""
    found = [
        gold.parent for folder in folders for gold in sorted([*folder.glob("gold.json"), *folder.glob("*/gold.json")])
    ]
    return list(dict.fromkeys(found))


def measured(folder: Path) -> tuple[dict[str, Score], float, float]:
    """Scores of one recording, its length in hours, and the seconds that examining it took."""
    began = time.perf_counter()
    examination = examine(folder)
    took = time.perf_counter() - began
    facts = facts_of(prepare(examination)).model_dump(mode="json")
    gold = json.loads((folder / "gold.json").read_text(encoding="utf-8"))
    slack, mark_slack = SLACK.get(examination.reading.speech.transcript.format, OTHERWISE)
    recording = Recording(gold, facts, items_of(folder / "specs.csv"), slack, mark_slack)
    return score(recording), gold["duration"] / 3600, took


def cell(name: str, one: Score, hours: float) -> str:
    """One measure of one recording as the table prints it."""
    if name.startswith("false"):
        return f"{one.found} ({one.found / hours:.1f} an hour)" if hours else str(one.found)
    if not one.expected and not one.said:
        return "–"
    recall = f"{one.found}/{one.expected}"
    precision = f", {one.precision:.0%} right" if one.precision is not None else ""
    return f"{recall}{precision}{', ' + one.note if one.note else ''}"


def table(named: Sequence[tuple[str, dict[str, Score], float]]) -> str:
    """Markdown: a row a measure, a column a recording, the total first."""
    rows = ["| measure | all |" + "".join(f" {name} |" for name, _, _ in named), "|---|---|" + "---|" * len(named)]
    hours = sum(length for _, _, length in named)
    for measure in named[0][1]:
        total = reduce(add, (scores[measure] for _, scores, _ in named))
        share = f" = {total.recall:.1%}" if total.recall is not None else ""
        counts, comma, more = cell(measure, total, hours).partition(",")
        cells = [f"{counts}{share}{comma}{more}"]
        cells += [cell(measure, scores[measure], length) for _, scores, length in named]
        rows.append(f"| {measure} | " + " | ".join(cells) + " |")
    return "\n".join(rows)


def main() -> int:
    arguments = sys.argv[1:]
    if {"-h", "--help"} & set(arguments):
        print(__doc__)
        return 0
    folders = [Path(argument) for argument in arguments if argument != "-v"] or [
        folder for folder in DEFAULT if folder.exists()
    ]
    found = recordings(folders)
    if not found:
        print("accuracy: there is no gold.json in the folders named; see benchmarks/README.md", file=sys.stderr)
        return 2
    named = []
    for folder in found:
        try:
            scores, hours, took = measured(folder)
        except InputError as error:
            print(f"accuracy: {error}", file=sys.stderr)
            return 2
        named.append((folder.name, scores, hours))
        print(f"{folder.name}: {took:.1f} s", file=sys.stderr)
    print(table(named))
    if "-v" in arguments:
        for name, scores, _ in named:
            print(f"\n## {name}\n")
            print("\n".join(f"- {measure}: {miss}" for measure, one in scores.items() for miss in one.misses))
    return 0


if __name__ == "__main__":
    sys.exit(main())
