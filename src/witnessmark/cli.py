"""The commands. They read their arguments, call the stage that does the work and print what it gives."""

import gc
import os
import sys
from collections.abc import Iterable, Sequence
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from witnessmark import __version__
from witnessmark.errors import WRONG_INPUT, told

if TYPE_CHECKING:
    from witnessmark.examination import Examination
    from witnessmark.proving import Proved

CLEAN, HOLD_OPEN, INTERRUPTED, PIPE_CLOSED = 0, 1, 130, 141

FOLDER = click.Path(path_type=Path)
SETTINGS = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


@click.group(context_settings=SETTINGS, invoke_without_command=True)
@click.version_option(__version__, "-V", "--version", prog_name="witnessmark", message="%(prog)s %(version)s")
@click.pass_context
def commands(context: click.Context) -> int:
    """Check what a filmed repair says before it is published.

    Reads the recording's own timed captions, checks every value said against a specification table and the mechanics
    of bolts, and writes what is published beside the video. The workshop manual, local codes and licensed practice
    come first: nothing here says that a repair is safe.

    Example: witnessmark proof sample_projects/front_brakes
    """
    if context.invoked_subcommand is None:
        click.echo(context.get_help())
    return CLEAN


@commands.command()
@click.argument("folder", metavar="DIR", type=FOLDER)
@click.option("--captions", metavar="FILE", type=FOLDER, required=True, help="The captions of the recording.")
@click.option("--title", metavar="TEXT", help="Title of the repair; by default the name of DIR.")
def new(folder: Path, captions: Path, title: str | None) -> int:
    """Start a project in DIR from a captions file.

    Copies the captions, writes repair.toml, and writes a specs.csv with a row for each thing that a value is said of,
    the value left empty for you to look up in the workshop manual. Overwrites nothing.

    Example: witnessmark new brakes --captions ~/footage/brakes.vtt --title "Front brakes"
    """
    from witnessmark.new_project import start_project, started_lines
    from witnessmark.progress import working

    with working(f"reading {captions}"):
        started = start_project(folder, captions, title)
    _print_notes(started.notes)
    for line in started_lines(started):
        click.echo(line)
    return CLEAN


@commands.command()
@click.argument("folders", metavar="DIR...", type=FOLDER, nargs=-1, required=True)
@click.option("--jobs", metavar="N", type=click.IntRange(1), help="Processes at once; by default one a core.")
def proof(folders: tuple[Path, ...], jobs: int | None) -> int:
    """Check the recording of each DIR and print what is found.

    Several are read at once, and told in the order given, with a table of all at the end. One that is wrong costs its
    own line and stops no other. Exit code 0: no hold is open; 1: a hold is open; 2: the input is wrong.

    Example: witnessmark proof front_brakes rear_shocks
    """
    from witnessmark.proving import cores, prove_all

    told_of = []
    with closing(prove_all(folders, jobs or cores())) as answers:
        for answer in answers:
            _print_proved(answer)
            told_of.append(answer)
    if len(folders) > 1:
        from witnessmark.publication.terminal import print_totals

        print_totals([(_in_totals(each), None if each.code else each.findings) for each in told_of])
    return max(each.code or (HOLD_OPEN if each.held else CLEAN) for each in told_of)


@commands.command()
@click.argument("folder", metavar="DIR", type=FOLDER)
@click.option("--out", metavar="OUT", type=FOLDER, help="Folder to write into; by default DIR/out.")
@click.option("--only", metavar="NAME", multiple=True, help="Write this file and no other; may be repeated.")
@click.option("--skip", metavar="NAME", multiple=True, help="Do not write this file; may be repeated.")
@click.option("--with-video", is_flag=True, help="Also a copy of the video, with its chapters in it.")
def build(folder: Path, out: Path | None, only: tuple[str, ...], skip: tuple[str, ...], with_video: bool) -> int:
    """Write everything that is published beside the video of DIR, or the files named.

    A text that you edited since it was written is merged with the new one. Where both changed the same lines, and where
    it is no text, your file is kept: the new one is put beside it as NAME.new. What needs a library that is not
    installed is left out, and a note says so. Exit code 0: written, no hold is open; 1: written, but a hold
    is open; 2: the input is wrong and nothing was written.

    Example: witnessmark build front_brakes --out website/front_brakes --skip facts.json
    """
    from witnessmark.progress import working
    from witnessmark.publication.build import asked_for
    from witnessmark.publication.build import build as write_all
    from witnessmark.publication.findings import has_open_hold, left_out
    from witnessmark.publication.terminal import summary, written_lines

    names = asked_for(only, skip)
    examination = _examine(folder)
    notes: list[str] = []
    with working(f"writing {out or folder / 'out'}"):
        done = write_all(examination, out or folder / "out", names, with_video=with_video, note=notes.append)
    _print_notes(notes)
    for line in written_lines(out or folder / "out", done):
        click.echo(line)
    lost = left_out(examination.project.captions.name, examination.reading.speech.transcript)
    click.echo(summary(examination.project.title, examination.findings, lost))
    _print_stale(examination)
    return HOLD_OPEN if has_open_hold(examination.findings) else CLEAN


@commands.command()
@click.argument("folder", metavar="DIR", type=FOLDER)
@click.argument("finding", metavar="FINDING")
@click.option("--keep", is_flag=True, help="It stays as said; needs --why.")
@click.option("--manual", is_flag=True, help="The table's value counts.")
@click.option("--no-mistake", is_flag=True, help="The finding is wrong; needs --why.")
@click.option("--value", "values", metavar="VALUE", multiple=True, help='Another value counts: "35 N·m".')
@click.option("--why", metavar="TEXT", default="", help="The reason, in your words.")
def settle(
    folder: Path, finding: str, keep: bool, manual: bool, no_mistake: bool, values: tuple[str, ...], why: str
) -> int:
    """Settle one FINDING of DIR, by the name that `proof` prints; the decision stands in DIR/decisions.toml.

    Give one of --keep, --manual, --no-mistake and --value. It outlasts rebuilds, a shift of all times and small mends
    of the captions. To change your mind, settle the finding again: the last decision on it counts.

    Example: witnessmark settle front_brakes value-887f --manual --why "misspoken, card cut in"
    """
    given = [("keep", keep), ("manual", manual), ("no mistake", no_mistake), *(("value", True) for _ in values)]
    decisions = [decision for decision, is_given in given if is_given]
    if len(decisions) != 1:
        chosen = f", not {' and '.join('--' + each.replace(' ', '-') for each in decisions)}" if decisions else ""
        raise click.UsageError(f"give one of --keep, --manual, --no-mistake and --value{chosen}")
    from witnessmark.settling import settle as settle_finding
    from witnessmark.settling import settled_lines

    for line in settled_lines(finding, settle_finding(folder, finding, decisions[0], why, "".join(values))):
        click.echo(line)
    return CLEAN


@commands.command("bolt")
@click.argument("bolt", metavar="BOLT")
@click.option("--grade", metavar="GRADE", help="Property class or grade, such as 10.9; by default 8.8 or grade 5.")
@click.option("--said", metavar="TORQUE", help='A torque to judge, with its unit: "60 lbf·ft" or "60 ft-lb".')
@click.option("--friction", "frictions", metavar="MU", type=float, multiple=True, help="Friction; may be repeated.")
def report_bolt(bolt: str, grade: str | None, said: str | None, frictions: tuple[float, ...]) -> int:
    """Print what a bolt can take, from its thread or from the size of its head.

    BOLT is a thread (M8, M10x1.25, 3/8-16) or the size of a head, key or bit ("13 mm head", "8 mm hex", T30). These
    are general mechanics and no specification: the workshop manual comes first.

    Example: witnessmark bolt "12 mm head" --said "60 ft-lb"
    """
    from witnessmark.publication.bolt_text import bolt_lines, requested_report

    for line in bolt_lines(requested_report(bolt, grade, said, frictions)):
        click.echo(line)
    return CLEAN


def _print_proved(answer: "Proved") -> None:
    _print_notes(answer.notes)
    if answer.problem is not None:
        _complain(answer.problem, answer.code)
        return
    from rich.console import Console

    from witnessmark.publication.terminal import print_findings

    print_findings(answer.title, answer.findings, Console(highlight=False), answer.left_out)
    for line in answer.stale:
        click.echo(line, err=True)


def _in_totals(answer: "Proved") -> str:
    return f"{answer.folder} (captions not all read)" if answer.left_out else str(answer.folder)


def _print_stale(examination: "Examination") -> None:
    from witnessmark.publication.findings import stale_text

    for decision in examination.stale:
        _tell(f"fits nothing any more: {stale_text(decision)}")


def _examine(folder: Path) -> "Examination":
    from witnessmark.examination import examine
    from witnessmark.progress import working
    from witnessmark.proving import notes_on

    with working(f"reading {folder}"):
        examination = examine(folder)
    _print_notes(notes_on(examination))
    return examination


def _print_notes(notes: Iterable[str]) -> None:
    for note in notes:
        _tell(f"note: {note}")


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run a command and end with its exit code; every error is one line on standard error."""
    # A command lives for seconds and builds many small tables: collecting among them took a fifth of its time and freed nothing.
    gc.set_threshold(1_000_000)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    sys.exit(_run(arguments))


def _run(arguments: Sequence[str] | None) -> int:
    try:
        code = commands.main(arguments, prog_name="witnessmark", standalone_mode=False)
        sys.stdout.flush()
    except click.ClickException as error:
        return _complain(_usage_problem(error), WRONG_INPUT)
    except (click.Abort, KeyboardInterrupt):
        return INTERRUPTED
    except BrokenPipeError:
        # Whoever read the output has gone; closing standard output at exit would complain again.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE_CLOSED
    except Exception as error:
        return _complain(*told(error))
    return int(code or CLEAN)


def _usage_problem(error: click.ClickException) -> str:
    context = getattr(error, "ctx", None)
    command = context.command_path if context else "witnessmark"
    where = command.removeprefix("witnessmark").strip() or "command line"
    return f"{where}: {error.format_message().rstrip('.')}; see: {command} --help"


def _complain(problem: str, code: int) -> int:
    _tell(problem)
    return code


def _tell(line: str) -> None:
    """One line on standard error; what it quotes of a file cannot steer the terminal."""
    from witnessmark.publication.escape import printable

    click.echo(f"witnessmark: {printable(line)}", err=True)
