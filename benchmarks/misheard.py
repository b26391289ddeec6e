"""How well misheard words are found, and how fast.

usage: python benchmarks/misheard.py [RECORDINGS_DIR ...] [-v]

RECORDINGS_DIR holds folders of annotated recordings: script.txt with marks `[[heard MEANT | said]]`, and specs.csv.
Without one, only the invented sentences of tests/language/misheard_said_found.txt and the right ones of
tests/language/plain_talk.txt are measured. -v prints every miss and every false alarm.
"""

import csv
import re
import sys
import time
from difflib import SequenceMatcher
from pathlib import Path

from witnessmark.language.misheard import Misheard, Term, find_misheard

ROOT = Path(__file__).parents[1]
VOCABULARY = ROOT / "src/witnessmark/data/vocabulary"
TESTS = ROOT / "tests/language"
KINDS = {"tools": "tool", "parts": "part", "fasteners": "fastener", "supplies": "supply"}
MARK = re.compile(r"\[\[(.*?)\|(.*?)\]\]", re.S)


def spoken(name: str) -> str:
    """A written name as it is said: lower case, no punctuation."""
    return re.sub(r"[^a-z0-9 ]+", " ", name.lower().replace("'s", " 's")).strip()


def tokens(text: str) -> list[str]:
    return re.findall(r"'[a-z]+|[a-z]+(?=n't)|n't|[a-z0-9.]+", text.lower())


def names(row: dict[str, str], column: str) -> list[str]:
    return [spoken(name) for name in (row[column], *(row.get("also_called") or "").split(";")) if name.strip()]


def vocabulary() -> list[Term]:
    terms = []
    for stem, kind in KINDS.items():
        path = VOCABULARY / f"{stem}.csv"
        if path.exists():
            with path.open(encoding="utf-8", newline="") as lines:
                terms += [Term(name, kind, 0.4) for row in csv.DictReader(lines) for name in names(row, "name")]
    return terms


def table(path: Path) -> list[Term]:
    with path.open(encoding="utf-8", newline="") as lines:
        return [Term(name, "item", 1.0) for row in csv.DictReader(lines) for name in names(row, "item")]


def alike(meant: str, found: Misheard) -> bool:
    """Whether what was found offers the words meant, number aside."""

    def plain(text: str) -> str:
        return "".join(word.rstrip("s") for word in spoken(text).split())

    a, b = plain(meant), plain(found.meant)
    return a in b or b in a or SequenceMatcher(None, a, b).ratio() > 0.8


def recording(script: str) -> tuple[list[str], list[tuple[int, int, str]], list[str]]:
    """A script's words, its misheard places (token span, what was meant), and the words put right."""
    words: list[str] = []
    clean: list[str] = []
    marks: list[tuple[int, int, str]] = []
    for line in script.splitlines():
        if not line.strip() or re.match(r"[#>]|==|\(pause", line.strip()):
            continue
        at = 0
        for match in MARK.finditer(line):
            before, said = tokens(line[at : match.start()]), tokens(match[2])
            words += before
            meant = [
                mark.strip().removeprefix("heard ") for mark in match[1].split(";") if mark.strip().startswith("heard ")
            ]
            marks += [(len(words), len(words) + len(said), m) for m in meant]
            clean += before + (tokens(spoken(meant[0])) if meant else said)
            words += said
            at = match.end()
        words += tokens(line[at:])
        clean += tokens(line[at:])
    return words, marks, clean


def measure(
    label: str, words: list[str], marks: list[tuple[int, int, str]], terms: list[Term], verbose: bool
) -> tuple[int, int, int, int]:
    """Misheard places found, all, findings, findings on a marked place."""
    began = time.perf_counter()
    found = find_misheard(words, terms)
    took = time.perf_counter() - began
    near = [[f for f in found if f.start < end + 3 and f.end > start - 3] for start, end, _ in marks]
    hit = [any(alike(mark[2], f) for f in fs) for mark, fs in zip(marks, near, strict=True)]
    true = {f for fs in near for f in fs}
    counts = f"{sum(hit):3} of {len(marks):3} found; {len(found):3} findings, {len(true):3} right"
    print(f"{label:30} {counts}; {len(words)} words, {took * 1000:.0f} ms")
    for (start, end, meant), ok, fs in zip(marks, hit, near, strict=True):
        if verbose and not ok:
            place = f"{' '.join(words[start - 3 : start])} [{' '.join(words[start:end])}]"
            print(f"    missed  {place} > {meant}   {[f.meant for f in fs]}")
    for f in found:
        if verbose and f not in true:
            before, after = words[max(0, f.start - 4) : f.start], words[f.end : f.end + 3]
            print(f"    extra   {' '.join(before)} [{f.heard}] {' '.join(after)} > {f.meant}  {f.cost} {f.why}")
    return sum(hit), len(marks), len(found), len(true)


def sentences(path: Path) -> list[tuple[str, list[Term], list[str], list[tuple[int, int, str]]]]:
    """Each trade of a said/found file: its name, its table's terms, its words and the places to find."""
    trades: list[tuple[str, list[Term], list[str], list[tuple[int, int, str]]]] = []
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith("== "):
            name, *items = line[3:].split(";")
            trades.append((name.strip(), [Term(spoken(item), "item", 1.0) for item in items], [], []))
        elif line.startswith("said"):
            said = tokens(line.removeprefix("said"))
            trades[-1][2].extend((*said, "."))
        elif line.startswith("found") and line.split()[1] != "nothing":
            words, marks = trades[-1][2:]
            for pair in line.removeprefix("found").split(","):
                heard, meant = (part.strip() for part in pair.split(">"))
                run = tokens(heard)
                first = len(words) - len(said) - 1
                start = next(i for i in range(first, len(words)) if words[i : i + len(run)] == run)
                marks.append((start, start + len(run), meant))
    return trades


def total(label: str, figures: list[tuple[int, int, int, int]]) -> None:
    hit, want, found, true = (sum(column) for column in zip(*figures, strict=True))
    print(f"{label}: recall {hit / want:.3f} ({hit}/{want}), precision {true / max(1, found):.3f} ({true}/{found})\n")


def main() -> None:
    verbose = "-v" in sys.argv
    folders = [Path(argument) for argument in sys.argv[1:] if argument != "-v"]
    general = vocabulary()
    print(f"{len(general)} general terms")
    figures = [
        measure(name, words, marks, general + terms, verbose)
        for name, terms, words, marks in sentences(TESTS / "misheard_said_found.txt")
    ]
    total("invented sentences", figures)
    clean: list[tuple[str, list[str], list[Term]]] = []
    for folder in folders:
        figures = []
        for script in sorted(folder.glob("*/script.txt")):
            words, marks, right = recording(script.read_text(encoding="utf-8"))
            terms = general + table(script.with_name("specs.csv"))
            figures.append(measure(script.parent.name, words, marks, terms, verbose))
            clean.append((script.parent.name, right, terms))
        total(str(folder), figures)
    plain = TESTS / "plain_talk.txt"
    if plain.exists():
        for part in plain.read_text(encoding="utf-8").split("== ")[1:]:
            head, _, body = part.partition("\n")
            name, *items = head.split(";")
            clean.append((name.strip(), tokens(body), general + [Term(spoken(item), "item", 1.0) for item in items]))
    alarms = [measure(f"clean: {name}", words, [], terms, verbose)[2] for name, words, terms in clean]
    spoken_words = sum(len(words) for _, words, _ in clean)
    rate = 1000 * sum(alarms) / max(1, spoken_words)
    print(f"false alarms on right text: {sum(alarms)} in {spoken_words} words, {rate:.2f} a thousand")


if __name__ == "__main__":
    main()
