"""Every reader of a creator's files fed with nonsense: it must answer, or refuse with an InputError, and nothing else.

usage: python benchmarks/fuzz.py [--seconds N] [--seed N] [--target NAME]

The corpus is the samples' own captions, tables and settings, cut small. With atheris installed the search is guided by
coverage; without it, or with --plain, the corpus is changed at random. --target: captions, table, repair, decisions or
numbers; by default all of them in turn. Prints how many inputs were read and what broke; ends with 1 if anything did.
"""

import argparse
import contextlib
import importlib
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

if "--guided" in sys.argv:
    import atheris  # type: ignore[import-not-found, unused-ignore]

    with atheris.instrument_imports(include=["witnessmark"]):  # what is imported here first is what coverage guides
        for name in ("transcript.reader", "specs.table", "project", "proof.decisions", "language.numbers"):
            importlib.import_module(f"witnessmark.{name}")

from witnessmark.errors import InputError
from witnessmark.language.numbers import read_numbers
from witnessmark.language.vocabulary import tokens_of
from witnessmark.project import read_project
from witnessmark.proof.decisions import FILE as DECISIONS
from witnessmark.proof.decisions import read_decisions
from witnessmark.specs.table import read_tables
from witnessmark.transcript.reader import parse_transcript

ROOT = Path(__file__).parents[1]
LONGEST = 400  # bytes of an input: small ones are read fast, and show as much
SLOW = 1.0  # seconds that no input so small may take


def _captions(data: bytes) -> None:
    parse_transcript(data, "captions")


def _numbers(data: bytes) -> None:
    read_numbers(tokens_of(data.decode("utf-8", "replace")))


def _file(name: str, read: Callable[[Path], object], folder: Path) -> Callable[[bytes], None]:
    """A reader of a file, fed through a file in memory where the system has one."""
    path = folder / name

    def fed(data: bytes) -> None:
        path.write_bytes(data)
        read(path)

    return fed


def targets(folder: Path) -> dict[str, Callable[[bytes], object]]:
    return {
        "captions": _captions,
        "table": _file("specs.csv", lambda path: read_tables([path]), folder),
        "repair": _file("repair.toml", lambda path: read_project(path.parent), folder),
        "decisions": _file(DECISIONS, lambda path: read_decisions(path.parent), folder),
        "numbers": _numbers,
    }


def corpus(target: str) -> list[bytes]:
    """Pieces of real files, from which nonsense is made."""
    if target == "decisions":
        return [b'[[decision]]\ncheck = "value"\nsaid = "fifty"\ndecision = "value"\nvalue = "35 N\xc2\xb7m"\n']
    if target == "numbers":
        lines = (ROOT / "tests/language/numbers_said_found.txt").read_bytes().split(b"\n")
        return [line for line in lines if line and not line.startswith(b"#")]
    patterns = {"captions": "captions.*", "table": "specs.csv", "repair": "repair.toml"}[target]
    files = sorted((*ROOT.glob(f"sample_projects/*/{patterns}"), *ROOT.glob(f"benchmarks/recordings/*/{patterns}")))
    found = [path.read_bytes()[:LONGEST] for path in files]
    if target == "captions":
        found += [
            b'<tt xmlns="http://www.w3.org/ns/ttml"><body><div><p begin="00:01.5" end="3s">Turn <span>it</span></p></div></body></tt>',
            b"0:00:01.000,0:00:03.000\nTurn it.\n",
        ]
    return found


def mutated(chance: random.Random, seeds: list[bytes]) -> bytes:
    """A seed with a few bytes changed, left out, doubled or taken from another seed."""
    data = bytearray(chance.choice(seeds))
    for _ in range(chance.randint(1, 6)):
        at, length = chance.randint(0, len(data)), chance.choice((1, 1, 2, 8, 40))
        match chance.randint(0, 4):
            case 0:
                data[at : at + length] = b""
            case 1:
                data[at:at] = chance.randbytes(min(length, 8))
            case 2:
                other = chance.choice(seeds)
                start = chance.randint(0, len(other))
                data[at : at + chance.choice((0, length))] = other[start : start + length]
            case 3:
                data[at:at] = data[at : at + length] * chance.choice((1, 2, 9))
            case 4:
                data[at:at] = chance.choice(
                    (b"<", b">", b"-->", b"\n\n", b'"', b"\x00", b"9" * 40, b",,", b"[", b"\xff", b"\r")
                )
    return bytes(data[: 2 * LONGEST])


def search(name: str, seconds: float, seed: int) -> tuple[int, list[str]]:
    """How many inputs a reader took, and what broke: one line an input."""
    chance, seeds, broken, count = random.Random(f"{seed} {name}"), corpus(name), [], 0
    memory = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else None) as folder:
        (Path(folder) / "captions.vtt").write_bytes(b"WEBVTT\n")
        read = targets(Path(folder))[name]
        end = time.monotonic() + seconds
        while time.monotonic() < end and len(broken) < 20:
            data = mutated(chance, seeds)
            count += 1
            begin = time.process_time()
            try:
                read(data)
            except InputError:
                pass
            except Exception as error:
                broken.append(f"{name}: {type(error).__name__}: {error}: {data!r}")
            if time.process_time() - begin > SLOW:
                broken.append(f"{name}: took {time.process_time() - begin:.1f} s: {data!r}")
    return count, broken


def guided(name: str, seconds: float, seed: int) -> None:
    """The same with atheris, which ends the process itself."""
    memory = Path("/dev/shm")
    folder = Path(tempfile.mkdtemp(dir=memory if memory.is_dir() else None))
    (folder / "captions.vtt").write_bytes(b"WEBVTT\n")
    read = targets(folder)[name]
    seeds = folder / "corpus"
    seeds.mkdir()
    for i, data in enumerate(corpus(name)):
        (seeds / str(i)).write_bytes(data)

    def one(data: bytes) -> None:
        with contextlib.suppress(InputError):
            read(data)

    limits = (
        f"-max_total_time={max(1, round(seconds))}",
        f"-max_len={2 * LONGEST}",
        f"-seed={seed + 1}",
        "-timeout=10",
    )
    atheris.Setup([sys.argv[0], *limits, "-verbosity=0", "-print_final_stats=1", str(seeds)], one)
    atheris.Fuzz()


def _guided_runs(names: list[str], seconds: float, seed: int) -> bool:
    """Each reader in a process of its own. True where nothing broke."""
    fine = True
    for name in names:
        command = [
            sys.executable,
            __file__,
            "--guided",
            "--target",
            name,
            "--seconds",
            str(seconds),
            "--seed",
            str(seed),
        ]
        ran = subprocess.run(command, capture_output=True, text=True, errors="replace")
        counted = [line.split()[-1] for line in ran.stderr.splitlines() if "number_of_executed_units" in line]
        print(f"{name}: {counted[0] if counted else 'no'} inputs, guided by coverage", flush=True)
        if ran.returncode:
            fine = False
            print(ran.stdout[-2000:], ran.stderr[-4000:])
    return fine


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    names = list(targets(Path()))
    parser.add_argument("--seconds", type=float, default=20.0, help="of all targets together")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--target", choices=names)
    parser.add_argument("--plain", action="store_true", help="without atheris")
    parser.add_argument("--guided", action="store_true", help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.guided:
        guided(options.target, options.seconds, options.seed)
        return
    chosen = [options.target] if options.target else names
    each = options.seconds / len(chosen)
    fine = True
    try:
        if options.plain:
            raise ImportError
        import atheris  # type: ignore[import-not-found, unused-ignore]  # noqa: F401
    except ImportError:
        total = 0
        for name in chosen:
            count, broken = search(name, each, options.seed)
            total += count
            fine &= not broken
            print(f"{name}: {count} inputs, changed at random, {len(broken)} broke", *broken, sep="\n", flush=True)
        print(f"{total} inputs in all")
    else:
        fine = _guided_runs(chosen, each, options.seed)
    sys.exit(0 if fine else 1)


if __name__ == "__main__":
    main()
