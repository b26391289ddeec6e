"""Many projects at once: told in order, a bad one stopping no other, no process left behind."""

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from witnessmark.errors import InputError, told

CAPTIONS = """WEBVTT

00:00:01.000 --> 00:00:06.000
Tighten the bracket bolts to {said} newton metres with a 13 mm socket.
"""
SPECS = "item,also_called,property,value,tool_size,source\nbracket bolts,,torque,25 N·m,13 mm,Manual p. 4\n"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    """A folder with three invented projects: a clean one, one without captions, one with a hold."""
    shelf = tmp_path_factory.mktemp("shelf")
    for name, said in (("clean", 25), ("bare", None), ("held", 250)):
        folder = shelf / name
        folder.mkdir()
        if said:
            (folder / "captions.vtt").write_text(CAPTIONS.format(said=said), encoding="utf-8")
        (folder / "specs.csv").write_text(SPECS, encoding="utf-8")
        text = f'title = "The {name} one"\ncaptions = "captions.vtt"\nspecs = ["specs.csv"]\n'
        (folder / "repair.toml").write_text(text, encoding="utf-8")
    return shelf


def proof(shelf: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "witnessmark", "proof", *arguments]
    return subprocess.run(command, cwd=shelf, capture_output=True, text=True, encoding="utf-8")


def test_a_bad_project_costs_its_own_line_and_stops_no_other(shelf):
    ran = proof(shelf, "held", "bare", "clean", "--jobs", "2")
    assert ran.returncode == 2
    assert [line.split(":")[0] for line in ran.stderr.splitlines()] == ["witnessmark"]
    assert "bare" in ran.stderr and "captions.vtt" in ran.stderr
    told_of = [line for line in ran.stdout.splitlines() if line.startswith("The ")]
    assert told_of == ["The held one: 1 hold", "The clean one: nothing open"]
    head, *rows = ran.stdout.splitlines()[-4:]
    assert head.split() == ["Project", "Holds", "Queries", "Notes", "Settled"]
    assert [row.split() for row in rows] == [["held", *"1000"], ["bare", "(not", "read)"], ["clean", *"0000"]]


def test_one_job_and_two_print_the_same(shelf):
    names = ("clean", "held", "bare")
    one, two = proof(shelf, *names, "--jobs", "1"), proof(shelf, *names, "--jobs", "2")
    assert (one.stdout, one.stderr, one.returncode) == (two.stdout, two.stderr, two.returncode)


@pytest.mark.parametrize(("names", "code"), [(["clean", "clean"], 0), (["clean", "held"], 1), (["bare"], 2)])
def test_the_exit_code_is_that_of_the_worst(shelf, names, code):
    ran = proof(shelf, *names)
    assert ran.returncode == code
    assert ("Project" in ran.stdout) == (len(names) > 1), "a table is printed of several projects only"


def test_what_is_wrong_with_the_input_and_with_the_program_are_told_apart():
    assert told(InputError("row 1", "it is empty", "fill it")) == ("row 1: it is empty; fill it", 2)
    assert told(PermissionError(13, "Permission denied", "a.vtt"))[1] == 2
    line, code = told(ZeroDivisionError("division\nby zero"))
    assert code == 70 and "\n" not in line and "fault in Witnessmark itself" in line


def _children(pid: int) -> list[int]:
    """Process ids of everything that a process started, itself or through another."""
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                stat = (entry / "stat").read_text(encoding="utf-8", errors="replace")
            except OSError:
                continue
            if int(stat.rpartition(")")[2].split()[1]) == pid:
                found += [int(entry.name), *_children(int(entry.name))]
    return found


def _alive(pid: int) -> bool:
    try:
        stat = Path(f"/proc/{pid}/stat").read_text(encoding="utf-8", errors="replace")
    except OSError:
        return False
    return stat.rpartition(")")[2].split()[0] != "Z"


def _until(true, seconds: float = 60.0) -> bool:
    end = time.monotonic() + seconds
    while not true() and time.monotonic() < end:
        time.sleep(0.02)
    return bool(true())


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="counts processes in /proc")
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGKILL])
def test_no_process_is_left_when_the_command_is_ended(shelf, how):
    command = [sys.executable, "-m", "witnessmark", "proof", *["held"] * 500, "--jobs", "2"]
    with subprocess.Popen(
        command, cwd=shelf, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, start_new_session=True
    ) as running:
        assert _until(lambda: len(_children(running.pid)) >= 2), "no process was started"
        children = _children(running.pid)
        if how == signal.SIGINT:
            os.killpg(running.pid, signal.SIGINT)  # as a terminal does: to everybody in the group
        else:
            running.kill()
        complaint = running.stderr.read() if running.stderr else ""
    assert running.returncode == (130 if how == signal.SIGINT else -signal.SIGKILL)
    assert "Traceback" not in complaint
    assert _until(lambda: not any(map(_alive, children))), "a process was left behind"


def test_a_setting_that_changes_nothing_says_so(shelf):
    settings = shelf / "clean" / "repair.toml"
    text = settings.read_text(encoding="utf-8")
    try:
        settings.write_text('units = ["N·m"]\n' + text, encoding="utf-8")
        assert "repair.toml key units: it changes nothing" in proof(shelf, "clean").stderr
    finally:
        settings.write_text(text, encoding="utf-8")
    assert proof(shelf, "clean").stderr == ""


def test_a_project_without_a_table_says_so(shelf, tmp_path):
    shutil.copytree(shelf / "clean", tmp_path / "clean")
    settings = tmp_path / "clean" / "repair.toml"
    settings.write_text(settings.read_text(encoding="utf-8").replace('specs = ["specs.csv"]', ""), encoding="utf-8")
    assert "repair.toml key specs: no table is named" in proof(tmp_path, "clean").stderr
