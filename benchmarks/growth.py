"""Whether the time that a recording takes grows no faster than the recording.

usage: python benchmarks/growth.py [--long] [--profile MINUTES]

Makes invented captions of 1, 10 and 100 minutes (with --long also 600) from the sentences of the sample narrations,
shuffled with a fixed seed, and prints seconds of processor time for each minute of recording, stage by stage, and the
memory that the largest moment took. A row that grows with the length is work that is not linear. Each length runs in a
process of its own, after a warming run of one minute, so that tables which are loaded once are not counted.
--profile MINUTES prints instead where the time of one length goes.
"""

import argparse
import cProfile
import pstats
import random
import resource
import subprocess
import sys
import tempfile
import time
from itertools import pairwise
from pathlib import Path

from witnessmark.examination import Evidence, values_of
from witnessmark.language.heard import corrector
from witnessmark.language.speech import read_speech
from witnessmark.procedure.cautions import find_cautions
from witnessmark.procedure.find import find_procedure
from witnessmark.procedure.promises import find_promises
from witnessmark.project import read_project
from witnessmark.proof.checks import run_checks
from witnessmark.reading.read import read
from witnessmark.specs.table import read_tables
from witnessmark.transcript import read_transcript

ROOT = Path(__file__).parents[1]
SAMPLE = ROOT / "sample_projects/front_brakes"
STAGES = ("captions", "speech", "reading", "procedure", "proof", "whole")
LINES_A_MINUTE = 15


def sentences() -> list[str]:
    """The caption lines of all samples, in file order."""
    lines: list[str] = []
    for folder in sorted(path.parent for path in (ROOT / "sample_projects").glob("*/repair.toml")):
        captions = read_transcript(read_project(folder).captions)
        lines += [cue.text.replace("\n", " ") for cue in captions.cues if cue.text]
    return lines


def make_project(folder: Path, minutes: int) -> None:
    """A project whose captions are so many minutes of the samples' sentences, in an order of their own."""
    chance, known = random.Random(minutes), sentences()
    with (folder / "captions.vtt").open("w", encoding="utf-8") as file:
        file.write("WEBVTT\n")
        for i in range(minutes * LINES_A_MINUTE):
            stamps = (f"{t // 3600:02}:{t // 60 % 60:02}:{t % 60:02}.000" for t in (i * 4, i * 4 + 4))
            file.write(f"\n{' --> '.join(stamps)}\n{chance.choice(known)}\n")
    (folder / "specs.csv").write_bytes((SAMPLE / "specs.csv").read_bytes())
    (folder / "repair.toml").write_text('title = "Growth"\ncaptions = "captions.vtt"\nspecs = ["specs.csv"]\n')


def examine_by_stage(folder: Path) -> list[float]:
    """Seconds of processor time of each of STAGES."""
    project = read_project(folder)
    table = read_tables(project.specs)
    marks = [time.process_time()]
    transcript = read_transcript(project.captions)
    marks.append(time.process_time())
    speech = read_speech(transcript, corrector(project, table))
    marks.append(time.process_time())
    reading = read(speech, table, project.title)
    marks.append(time.process_time())
    procedure = find_procedure(
        speech, reading.sightings, values_of(reading.mentions, table, project.title), project.machine.kind or ""
    )
    cautions = find_cautions(speech, reading.sightings, table, project.machine.kind)
    owed = find_promises(speech, project.links)
    marks.append(time.process_time())
    run_checks(Evidence(project, table, reading, procedure, cautions, owed))
    marks.append(time.process_time())
    return [after - before for before, after in pairwise(marks)] + [marks[-1] - marks[0]]


def measure(minutes: int, profile: bool = False) -> str:
    """One row: seconds a minute by stage, and megabytes at most."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        make_project(folder, 1)
        examine_by_stage(folder)
        make_project(folder, minutes)
        if profile:
            profiler = cProfile.Profile()
            profiler.runcall(examine_by_stage, folder)
            pstats.Stats(profiler).sort_stats("tottime").print_stats(45)
        spent = examine_by_stage(folder)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return f"| {minutes} | " + " | ".join(f"{each / minutes:.4f}" for each in spent) + f" | {memory:.0f} |"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--long", action="store_true", help="also ten hours")
    parser.add_argument("--profile", type=int, metavar="MINUTES", help="print where the time of one length goes")
    parser.add_argument("--only", type=int, metavar="MINUTES", help="print the row of one length")
    options = parser.parse_args()
    if options.profile or options.only:
        print(measure(options.profile or options.only, profile=bool(options.profile)))
        return
    print(f"| minutes | {' | '.join(f'{stage}, s/min' for stage in STAGES)} | memory, MB |")
    print(f"|---|{'---|' * (len(STAGES) + 1)}", flush=True)
    for minutes in (1, 10, 100, *((600,) if options.long else ())):
        subprocess.run([sys.executable, __file__, "--only", str(minutes)], check=True)


if __name__ == "__main__":
    main()
