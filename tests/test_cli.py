"""The commands from outside: what they print, what they write, how they end."""

import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from witnessmark import __version__
from witnessmark.cli import commands, main
from witnessmark.project import _MachineTable, _ProjectTable, read_project
from witnessmark.publication.build import WRITERS
from witnessmark.publication.write import MANIFEST
from witnessmark.reference import with_reference
from witnessmark.specs.cells import OPTIONAL, REQUIRED
from witnessmark.specs.properties import property_names
from witnessmark.specs.table import read_tables

ROOT = Path(__file__).parents[1]
SAMPLE = ROOT / "sample_projects" / "front_brakes"
CLEAN_CAPTIONS = """WEBVTT

00:00:01.000 --> 00:00:06.000
Tighten the bracket bolts to 25 newton metres with a 13 mm socket.
"""
SPECS = "item,also_called,property,value,tool_size,source\nbracket bolts,,torque,{value},13 mm,Manual p. 4\n"


@pytest.fixture
def run(capsys):
    """Runs a command: its exit code, what it prints, what it complains of."""

    def ran(*arguments: object) -> tuple[int, str, str]:
        with pytest.raises(SystemExit) as ended:
            main([str(each) for each in arguments])
        printed = capsys.readouterr()
        return int(ended.value.code or 0), printed.out, printed.err

    return ran


@pytest.fixture
def project(tmp_path):
    """A project whose one torque is right, or wrong where another value stands in its table."""

    def made(value: str = "25 N·m") -> Path:
        (tmp_path / "captions.vtt").write_text(CLEAN_CAPTIONS, encoding="utf-8")
        (tmp_path / "specs.csv").write_text(SPECS.format(value=value), encoding="utf-8")
        text = 'title = "Bracket"\ncaptions = "captions.vtt"\nspecs = ["specs.csv"]\n'
        (tmp_path / "repair.toml").write_text(text, encoding="utf-8")
        return tmp_path

    return made


def test_help_and_version(run):
    assert run("--version")[:2] == (0, f"witnessmark {__version__}\n")
    for arguments in ([], ["--help"], ["-h"]):
        code, out, _ = run(*arguments)
        assert code == 0 and "Commands:" in out


@pytest.mark.parametrize("name", sorted(commands.commands))
def test_every_command_has_help_with_an_example(run, name):
    assert run(name, "-h")[:2] == run(name, "--help")[:2]
    assert f"Example: witnessmark {name} " in " ".join(run(name, "--help")[1].split())


def test_help_needs_no_language_library():
    code = "import sys\nfrom witnessmark.cli import main\ntry: main(['build', '--help'])\nexcept SystemExit: pass\n"
    loaded = "print([name for name in ('spacy', 'pint', 'rich', 'pydantic') if name in sys.modules])"
    ran = subprocess.run([sys.executable, "-c", code + loaded], capture_output=True, text=True, check=True)
    assert ran.stdout.splitlines()[-1] == "[]"


def test_the_readme_tells_the_commands_as_they_are():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert with_reference(readme) == readme, "run: python -m witnessmark.reference README.md"


def test_the_readme_s_commands_for_ones_own_recording_work_as_written(run, tmp_path, monkeypatch):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    part = readme[readme.index("For your own recording") : readme.index("## What it finds")]
    lines = [line for block in part.split("```sh\n")[1:] for line in block.split("```")[0].splitlines()]
    shutil.copytree(SAMPLE, tmp_path / "sample_projects" / SAMPLE.name, ignore=shutil.ignore_patterns("out"))
    monkeypatch.chdir(tmp_path)
    used = set()
    for line in lines:
        program, command, *rest = shlex.split(line, comments=True)
        assert program == ".venv/bin/witnessmark"
        code, _, err = run(command, *rest)
        assert code in (0, 1), (line, err)
        used.add(command)
    assert used == {"new", "proof", "build", "settle"}


def test_the_readme_tells_every_setting_and_every_column():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    part = readme[readme.index("## A project") : readme.index("### Captions it reads")]
    settings = [*_ProjectTable.model_fields, *_MachineTable.model_fields]
    assert [
        name for name in settings if f"{name} =" not in part and f"`{name}`" not in part and f"[{name}]" not in part
    ] == []
    assert [name for name in (*REQUIRED, *OPTIONAL) if f"| `{name}` |" not in part] == []
    assert [name for name in property_names() if name not in part] == []


def test_a_clean_recording_ends_with_0(run, project):
    code, out, _ = run("proof", project())
    assert code == 0 and out.splitlines()[-1].startswith("Bracket: ")
    assert "hold" not in out


def test_an_open_hold_ends_with_1(run, project):
    code, out, _ = run("proof", project("60 N·m"))
    assert code == 1 and "hold" in out and "25 newton metres" in out


def test_build_writes_everything_even_where_a_hold_is_open(run, project):
    folder = project("60 N·m")
    code, out, _ = run("build", folder)
    names = {name for name, _ in WRITERS}
    assert code == 1
    assert names <= {path.name for path in (folder / "out").iterdir()}
    assert all(f"wrote {folder / 'out' / name}" in out for name in names)


def test_build_writes_only_what_is_asked(run, project):
    folder = project()
    code, out, _ = run("build", folder, "--only", "kit.md", "--only", "kit.csv", "--skip", "kit.csv")
    assert code == 0
    assert {path.name for path in (folder / "out").iterdir()} == {"kit.md", MANIFEST, ".witnessmark"}
    assert [line for line in out.splitlines() if line.startswith("wrote")] == [f"wrote {folder / 'out' / 'kit.md'}"]


def test_build_of_a_file_that_is_not_written(run, project):
    folder = project()
    code, _, err = run("build", folder, "--only", "kitt.md")
    assert code == 2 and "the nearest is 'kit.md'" in err and "facts.json" in err
    assert not (folder / "out").exists()


def test_build_of_a_file_that_nothing_is_near_to(run, project):
    code, _, err = run("build", project(), "--only", "xyz")
    assert code == 2 and "nearest" not in err and "facts.json" in err


def test_the_readme_lists_every_file_that_is_written():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    table = readme[readme.index("| File | What it is |") : readme.index("All are written or none.")]
    assert [name for name, _ in WRITERS if f"`{name}`" not in table] == []


def test_build_gives_the_same_bytes_again(run, project, tmp_path):
    folder = project()
    for out in ("one", "two"):
        run("build", folder, "--out", tmp_path / out)
    for path in (path for path in (tmp_path / "one").rglob("*") if path.is_file()):
        assert path.read_bytes() == (tmp_path / "two" / path.relative_to(tmp_path / "one")).read_bytes()


def test_build_says_what_became_of_an_edited_file(run, project):
    folder = project()
    run("build", folder)
    (folder / "out" / "guide.md").write_text("my own words\n", encoding="utf-8")
    _, out, _ = run("build", folder)
    assert "guide.md (merged with your edits)" in out  # nothing is new: the words stand alone
    settings = folder / "repair.toml"
    settings.write_text(settings.read_text(encoding="utf-8").replace("Bracket", "Another"), encoding="utf-8")
    _, out, _ = run("build", folder)
    assert "guide.md.new (guide.md was edited since it was written and is kept)" in out
    assert (folder / "out" / "guide.md").read_text(encoding="utf-8") == "my own words\n"


def wrong_inputs(folder: Path) -> dict[str, list[object]]:
    (folder / "empty.vtt").write_text("")
    return {
        "no folder": ["proof", folder / "missing"],
        "no captions": ["new", folder / "made", "--captions", folder / "missing.vtt"],
        "empty captions": ["new", folder / "made", "--captions", folder / "empty.vtt"],
        "unknown command": ["prove", folder],
        "unknown option": ["build", folder, "--output", "x"],
        "missing argument": ["proof"],
        "missing option": ["new", folder / "made"],
        "unknown thread": ["bolt", "M999"],
        "no bolt": ["bolt", "sprocket"],
        "no torque": ["bolt", "M8", "--said", "25 bananas"],
        "unknown grade": ["bolt", "M8", "--grade", "strong"],
        "friction out of range": ["bolt", "M8", "--friction", "3"],
        "friction no number": ["bolt", "M8", "--friction", "dry"],
    }


def test_wrong_input_is_one_line_and_ends_with_2(run, tmp_path):
    for case, arguments in wrong_inputs(tmp_path).items():
        code, out, err = run(*arguments)
        assert (code, out) == (2, ""), case
        assert len(err.splitlines()) == 1 and err.startswith("witnessmark: "), (case, err)
        assert "; " in err and "Traceback" not in err, (case, err)
    assert not (tmp_path / "made").exists()


def test_a_bad_row_is_named_and_nothing_is_written(run, project):
    folder = project("25 bananas")
    code, _, err = run("build", folder)
    assert code == 2 and "specs.csv row 2" in err
    assert not (folder / "out").exists()


@pytest.mark.skipif(os.geteuid() == 0 if hasattr(os, "geteuid") else True, reason="root may write anywhere")
def test_a_folder_that_cannot_be_written_is_one_line(run, project, tmp_path):
    shut = tmp_path / "shut"
    shut.mkdir(mode=0o500)
    code, _, err = run("build", project(), "--out", shut / "out")
    assert code == 2 and len(err.splitlines()) == 1


def test_an_interrupt_ends_with_130(run, monkeypatch, project):
    def interrupted(folder: Path) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("witnessmark.examination.examine", interrupted)
    code, _, err = run("proof", project())
    assert code == 130 and "Traceback" not in err


def test_a_fault_of_the_program_is_one_line_too(run, monkeypatch, project):
    def faulty(folder: Path) -> None:
        raise ZeroDivisionError("nought")

    monkeypatch.setattr("witnessmark.examination.examine", faulty)
    code, _, err = run("proof", project())
    assert code == 70 and len(err.splitlines()) == 1 and "ZeroDivisionError: nought" in err


def test_new_makes_a_project_that_can_be_read(run, tmp_path):
    captions = tmp_path / "talk.vtt"
    captions.write_text(CLEAN_CAPTIONS, encoding="utf-8")
    code, _, _ = run("new", tmp_path / "made", "--captions", captions, "--title", 'The "big" job')
    project = read_project(tmp_path / "made")
    assert code == 0 and project.title == 'The "big" job'
    assert project.captions.read_bytes() == captions.read_bytes()
    rows = read_tables(project.specs).rows
    assert [(row.property, row.to_look_up) for row in rows] == [("torque", True)]


def test_new_says_what_to_do_next(run, tmp_path):
    captions = tmp_path / "talk.vtt"
    folder = tmp_path / "my repair"
    captions.write_text(CLEAN_CAPTIONS, encoding="utf-8")
    *_, following, then = run("new", folder, "--captions", captions)[1].splitlines()
    assert following == f"next: fill in value and source in {folder / 'specs.csv'} from the workshop manual (1 row)"
    assert then == f"then: witnessmark proof '{folder}'"
    captions.write_text(CLEAN_CAPTIONS.replace("the bracket bolts", "it"), encoding="utf-8")
    *_, following, _ = run("new", tmp_path / "other", "--captions", captions)[1].splitlines()
    assert following.endswith("(1 row); put a name where 'unnamed at' a time stands")
    captions.write_text(CLEAN_CAPTIONS.replace("25 newton metres with a 13 mm socket", "taste"), encoding="utf-8")
    *_, following, _ = run("new", tmp_path / "third", "--captions", captions)[1].splitlines()
    assert following.startswith("next: no value was found in the captions; add a row to ")


def test_new_overwrites_nothing(run, project):
    folder = project()
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    code, _, err = run("new", folder, "--captions", folder / "captions.vtt")
    assert code == 2 and "repair.toml" in err
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_new_never_puts_a_value_said_into_the_table(run, tmp_path):
    shutil.copy(SAMPLE / "captions.vtt", tmp_path / "captions.vtt")
    assert run("new", tmp_path, "--captions", tmp_path / "captions.vtt")[0] == 0
    rows = read_tables((tmp_path / "specs.csv",)).rows
    assert rows and all(row.to_look_up and not row.origin.source for row in rows)


def test_settle_takes_one_decision(run, project):
    folder = project("60 N·m")
    for two in (["--keep", "--manual"], ["--keep", "--no-mistake"], ["--manual", "--value", "5 N·m"]):
        code, out, err = run("settle", folder, "value-0000", *two, "--why", "because")
        assert (code, out) == (2, "") and len(err.splitlines()) == 1
        first, second = (each for each in two if each.startswith("--"))
        assert f"give one of --keep, --manual, --no-mistake and --value, not {first} and {second}" in err
    code, _, err = run("settle", folder, "value-0000", "--value", "5 N·m", "--value", "6 N·m")
    assert code == 2 and "not --value and --value" in err
    assert not (folder / "decisions.toml").exists()


def test_settle_says_what_counts_and_what_counts_no_more(run, project):
    folder = project("60 N·m")
    found = next(line.split()[-1] for line in run("proof", folder)[1].splitlines() if "hold  value" in line)
    code, out, _ = run("settle", folder, found, "--keep", "--why", "the maker's bulletin")
    path = folder / "decisions.toml"
    assert (code, out) == (0, f"settled {found} in {path}: kept as said: the maker's bulletin\n")
    _, out, _ = run("settle", folder, found, "--manual")
    assert out.splitlines() == [
        f"settled {found} in {path}: the manual's value counts, 60 N·m (44 lbf·ft) in specs.csv row 2",
        "it takes the place of decision 1 in that file (kept as said: the maker's bulletin): of two, the last counts",
    ]


def test_build_of_what_is_skipped_too(run, project):
    folder = project()
    # A guide brings its stills along: they alone were left, of a project without a video.
    code, out, err = run("build", folder, "--only", "guide.md", "--skip", "guide.md", "--skip", "kit.md")
    assert (code, out) == (2, "") and len(err.splitlines()) == 1 and "both name guide.md" in err
    assert not (folder / "out").exists()


def test_bolt_prints_what_a_thread_takes(run):
    code, out, _ = run("bolt", "M8", "--said", "60 ft-lb")
    assert code == 0 and "M8, 8.8 (assumed)" in out and "past the limit" in out
    assert "The workshop manual, local rules and licensed practice come first." in out


def test_bolt_tells_the_verdict_first(run):
    first, *rest = run("bolt", "12 mm head", "--said", "60 ft-lb")[1].splitlines()
    assert first.startswith("12 mm head: ") and "60 lbf·ft (81.3 N·m)" in first
    assert not any("81.3 N·m)" in line and "60 lbf·ft" in line for line in rest)
    assert run("bolt", "12 mm head")[1].splitlines()[0] == "12 mm head"


def test_bolt_reads_the_size_of_a_head(run):
    assert "can be M8" in run("bolt", "13 mm head")[1]


def test_words_that_are_not_read_stand_in_the_summary(run, project, tmp_path):
    folder = project()
    lost = "".join(f"\n00:00:{9 + i:02d}.000 --> 00:00:xx.000\nlost words {i}\n" for i in range(5))
    (folder / "captions.vtt").write_text(CLEAN_CAPTIONS + lost, encoding="utf-8")
    told = (
        'NOT READ, so not checked: captions.vtt line 6 "lost words 0", captions.vtt line 9 "lost words 1", '
        'captions.vtt line 12 "lost words 2" and 2 more'
    )
    for command in ("proof", "build"):
        code, out, _ = run(command, folder)
        assert code == 0 and out.splitlines()[-1].endswith(f"; {told}"), command
    assert 'captions.vtt line 18 "lost words 4"' in (folder / "out" / "findings.md").read_text(encoding="utf-8")
    assert told in run("new", tmp_path / "made", "--captions", folder / "captions.vtt")[1].splitlines()
    assert f"{folder} (captions not all read)" in run("proof", folder, folder, "--jobs", "1")[1]


def test_notes_on_the_captions_are_printed(run, tmp_path):
    captions = tmp_path / "talk.vtt"
    captions.write_text(CLEAN_CAPTIONS + "\n00:00:09.000 --> 00:00:xx.000\nlost words\n", encoding="utf-8")
    code, _, err = run("new", tmp_path / "made", "--captions", captions)
    assert code == 0 and err.startswith("witnessmark: note: talk.vtt line ")
