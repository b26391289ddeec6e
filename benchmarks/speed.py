"""How fast a recording is read, beside libraries that read the same text, and how long commands take from cold.

usage: python benchmarks/speed.py [--runs N] [--before DIR]

All comparisons are made in one run, alternating, and are given as ratios: a busy machine slows both alike. The peers
are spaCy's blank English tokenizer, which only cuts a text into words, and quantulum3, a general-purpose reader of
quantities (left out with a line where it is not installed). --before DIR: also times the commands of another source
tree (its folder src), alternating with this one.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parents[1]
RECORDING = ROOT / "benchmarks/recordings/cv_axle"


def seconds(work: Callable[[], object]) -> float:
    begin = time.process_time()
    work()
    return time.process_time() - begin


def quantity_reader() -> Callable[[str], object] | None:
    try:
        from quantulum3 import parser  # type: ignore[import-untyped, unused-ignore]
    except ImportError:
        return None
    return lambda text: parser.parse(text)


def reading(runs: int) -> None:
    """Words a second of each reader of one text, and how that stands to ours.

    Libraries are loaded here, after the commands were measured: the memory of a process counts that of its parent.
    """
    import spacy

    from growth import examine_by_stage
    from witnessmark.project import read_project
    from witnessmark.transcript import read_transcript

    transcript = read_transcript(read_project(RECORDING).captions)
    cues = [cue.text.replace("\n", " ") for cue in transcript.cues]
    text, count = " ".join(cues), len(transcript.words)
    tokenizer = spacy.blank("en").tokenizer
    readers: dict[str, Callable[[], object]] = {
        "witnessmark, captions and speech": _first_stages,
        "witnessmark, whole examination": lambda: examine_by_stage(RECORDING),
        "spaCy's blank English tokenizer alone": lambda: tokenizer(text),
    }
    quantities = quantity_reader()
    if quantities:
        readers["quantulum3, caption by caption"] = lambda: [quantities(cue) for cue in cues]
    else:
        print("quantulum3 is not installed: left out")
    for read in readers.values():
        read()  # tables that are loaded once are not counted
    spent = {name: [] for name in readers}  # type: dict[str, list[float]]
    for _ in range(runs):
        for name, read in readers.items():
            spent[name].append(seconds(read))
    ours = median(spent["witnessmark, whole examination"])
    print(
        f"\n{count} words, {transcript.duration / 60:.1f} minutes\n\n| reader | words/s | time against the whole examination |\n|---|---|---|"
    )
    for name, times in spent.items():
        print(f"| {name} | {count / median(times):,.0f} | {median(times) / ours:.3f} |")


def _first_stages() -> None:
    from witnessmark.language.heard import corrector
    from witnessmark.language.speech import read_speech
    from witnessmark.project import read_project
    from witnessmark.specs.table import read_tables
    from witnessmark.transcript import read_transcript

    project = read_project(RECORDING)
    read_speech(read_transcript(project.captions), corrector(project, read_tables(project.specs)))


def cold(arguments: list[str], source: Path, bytecode: str) -> tuple[float, float, float]:
    """Seconds on the clock, seconds of processor time and megabytes at most of one command as a process of its own.

    bytecode: folder for what Python compiles, so that a source tree starts as an installed package does.
    """
    environment = {**os.environ, "PYTHONPATH": str(source), "PYTHONPYCACHEPREFIX": bytecode}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    begin = time.monotonic()
    command = [sys.executable, "-m", "witnessmark", *arguments]
    process = subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, _, usage = os.wait4(process.pid, 0)
    process.returncode = 0
    spent = usage.ru_utime + usage.ru_stime
    return time.monotonic() - begin, spent, usage.ru_maxrss / 1024


def commands(runs: int, before: Path | None) -> None:
    """The median of each command from cold; where another tree is given, both in turn."""
    trees = {"this tree": ROOT / "src", **({"the other tree": before / "src"} if before else {})}
    print("\n| command | tree | s | processor s | MB |\n|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as out, tempfile.TemporaryDirectory() as bytecode:
        kinds = {
            "--help": ["--help"],
            "proof": ["proof", str(RECORDING)],
            "build": ["build", str(RECORDING), "--out", out],
        }
        for name, arguments in kinds.items():
            took: dict[str, list[tuple[float, float, float]]] = {tree: [] for tree in trees}
            for source in trees.values():
                cold(arguments, source, bytecode)  # the first run compiles
            for _ in range(runs):
                for tree, source in trees.items():
                    took[tree].append(cold(arguments, source, bytecode))
            for tree, times in took.items():
                clock, processor, memory = (median(each) for each in zip(*times, strict=True))
                print(f"| {name} | {tree} | {clock:.2f} | {processor:.2f} | {memory:.0f} |", flush=True)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--no-commands", action="store_true", help="compare the readers only")
    parser.add_argument("--before", type=Path, metavar="DIR", help="another source tree to compare the commands with")
    options = parser.parse_args()
    if not options.no_commands:
        commands(options.runs, options.before)
    reading(options.runs)


if __name__ == "__main__":
    main()
