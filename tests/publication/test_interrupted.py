"""Builds cut short: killed processes, full disks, folders that may not be written. A next build leaves one whole set."""

import errno
import inspect
import os
import random
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from filelock import FileLock

from witnessmark.cli import WRONG_INPUT, _run
from witnessmark.errors import InputError
from witnessmark.publication import moves
from witnessmark.publication.moves import KEPT, SCRATCH
from witnessmark.publication.write import write_files

NAMES = ("a.md", "b.txt", "cards/c01.png", "cards/c02.png", "guide.html")
CHILD = """
import itertools, sys
from pathlib import Path
from witnessmark.publication.write import write_files
print("ready", flush=True)
for number in itertools.count():
    write_files(Path(sys.argv[1]), contents("one" if number % 2 else "two"))
"""
STAGED = """
import os, sys
from pathlib import Path
from witnessmark.publication.write import write_files
left, replace = int(sys.argv[2]), Path.replace
def counted(self, target):
    global left
    left -= 1
    if left < 0:
        os.kill(os.getpid(), 9)
    return replace(self, target)
Path.replace = counted
write_files(Path(sys.argv[1]), contents("two"))
"""


def contents(of: str) -> dict[str, str | bytes]:
    size = 40_000 if of == "one" else 60_000
    text = f"{of}\n" * size
    return {name: text.encode() if name.endswith(".png") else text for name in NAMES}


def sets_of(out: Path) -> list[str | None]:
    """Which set each file belongs to, whole; None for a file that is not there."""
    whole = {
        (text if isinstance(text, bytes) else text.encode()): of
        for of in ("one", "two")
        for text in contents(of).values()
    }
    return [whole[(out / name).read_bytes()] if (out / name).exists() else None for name in NAMES]


def child(program: str, *arguments: str) -> subprocess.Popen[bytes]:
    """A process that writes the same contents; it imports only what it writes with, to be quick."""
    program = f"NAMES = {NAMES!r}\n{inspect.getsource(contents)}\n{program}"
    return subprocess.Popen([sys.executable, "-c", program, *arguments], stdout=subprocess.PIPE)


def settled(out: Path) -> bool:
    """Whether the next build clears up: a build of nothing only undoes what was left by halves."""
    write_files(out, {})
    return not list(out.glob(f"{SCRATCH}*")) and len(set(sets_of(out))) == 1


def test_killed_at_any_moment_each_file_is_whole_and_the_next_build_mends_the_rest(tmp_path: Path) -> None:
    chance = random.Random(7)
    write_files(tmp_path, contents("one"))
    for _ in range(8):
        process = child(CHILD, str(tmp_path))
        assert process.stdout is not None and process.stdout.readline() == b"ready\n"
        time.sleep(chance.uniform(0.0, 0.12))
        process.kill()
        process.communicate()
        assert None not in sets_of(tmp_path)
        assert settled(tmp_path)


def test_killed_between_any_two_moves_the_former_set_comes_back(tmp_path: Path) -> None:
    mixed = 0
    for left in range(0, 12):
        out = tmp_path / str(left)
        write_files(out, contents("one"))
        process = child(STAGED, str(out), str(left))
        process.communicate()
        if process.returncode == 0:
            break
        mixed += len(set(sets_of(out))) == 2
        assert None not in sets_of(out)
        assert settled(out) and set(sets_of(out)) == {"one"}
    assert process.returncode == 0 and set(sets_of(out)) == {"two"}
    assert mixed >= 3  # the moments that matter were met


def test_an_edit_made_after_a_kill_is_not_undone(tmp_path: Path) -> None:
    write_files(tmp_path, contents("one"))
    child(STAGED, str(tmp_path), "4").communicate()
    (tmp_path / "a.md").write_text("mine\n")
    (tmp_path / "guide.html").write_text("mine too\n")
    write_files(tmp_path, contents("two"))
    assert (tmp_path / "a.md").read_text() == "mine\n"
    assert (tmp_path / "guide.html").read_text() == "mine too\n"


Step = tuple[Any, str]
STEPS: dict[str, Step] = {
    "sync": (os, "fsync"),
    "move": (Path, "replace"),
    "write": (Path, "write_bytes"),
    "link": (os, "link"),
}


def failing(real: Callable[..., Any], after: int, code: int) -> Callable[..., Any]:
    """A call that fails once, after so many that do not."""
    calls: Iterator[int] = iter(range(10_000))

    def call(*given: Any, **named: Any) -> Any:
        if next(calls) == after:
            raise OSError(code, os.strerror(code))
        return real(*given, **named)

    return call


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EACCES, errno.EROFS])
@pytest.mark.parametrize("step", STEPS)
def test_a_failure_at_each_step_leaves_one_whole_set(tmp_path: Path, step: str, code: int) -> None:
    owner, name = STEPS[step]
    for after in range(60):
        out = tmp_path / str(after)
        write_files(out, contents("one"))
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(owner, name, failing(getattr(owner, name), after, code))
            try:
                write_files(out, contents("two"))
                done = True
            except InputError as why:
                done = False
                assert os.strerror(code) in str(why) and "\n" not in str(why)
        assert set(sets_of(out)) == {"two" if done else "one"}
        assert not list(out.glob(f"{SCRATCH}*"))
        if done and step != "link":
            break
        if step == "link" and after > 8:
            break
    assert done and after > 2


def test_a_disk_that_stays_full_in_the_midst_is_mended_by_the_next_build(tmp_path: Path, monkeypatch: Any) -> None:
    write_files(tmp_path, contents("one"))
    real, calls = Path.replace, iter(range(10_000))

    def replace(self: Path, target: Path) -> Path:
        if next(calls) >= 5:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(InputError, match="No space left"):
        write_files(tmp_path, contents("two"))
    assert None not in sets_of(tmp_path)
    monkeypatch.undo()
    assert settled(tmp_path) and set(sets_of(tmp_path)) == {"one"}


def test_the_command_tells_of_a_full_disk_on_one_line(
    project: Path, tmp_path: Path, monkeypatch: Any, capsys: Any
) -> None:
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    assert _run(["build", str(project), "--out", str(tmp_path / "out"), "--only", "kit.md"]) == WRONG_INPUT
    complaint = capsys.readouterr().err.strip().splitlines()[-1]
    assert "cannot be written (No space left on device)" in complaint
    assert not (tmp_path / "out" / "kit.md").exists()


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="nothing is forbidden to root")
def test_a_folder_that_may_not_be_written_is_told_of(tmp_path: Path) -> None:
    write_files(tmp_path, contents("one"))
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(InputError, match="cannot be written"):
            write_files(tmp_path, contents("two"))
    finally:
        tmp_path.chmod(0o700)
    assert set(sets_of(tmp_path)) == {"one"}


def test_a_disk_without_second_names_serves_too(tmp_path: Path, monkeypatch: Any) -> None:
    def none(*given: Any, **named: Any) -> None:
        raise OSError(errno.EPERM, os.strerror(errno.EPERM))

    monkeypatch.setattr(os, "link", none)
    write_files(tmp_path, contents("one"))
    write_files(tmp_path, contents("two"))
    assert set(sets_of(tmp_path)) == {"two"}


def test_two_builds_do_not_write_into_one_folder(tmp_path: Path) -> None:
    write_files(tmp_path, contents("one"))
    with FileLock(tmp_path / KEPT / "lock"), pytest.raises(InputError, match="another build"):
        write_files(tmp_path, contents("two"))
    assert set(sets_of(tmp_path)) == {"one"}


def test_a_journal_cannot_have_a_file_outside_moved(tmp_path: Path) -> None:
    outside, out = tmp_path / "precious", tmp_path / "out"
    outside.write_text("precious")
    left = out / f"{SCRATCH}left"
    (left / "former").mkdir(parents=True)
    journal = f'{{"placed": {{"../precious": "{moves.file_hash(outside)}"}}, "existed": []}}'
    (left / "journal.json").write_text(journal)
    write_files(out, {"a.md": "a\n"})
    assert outside.read_text() == "precious" and not left.exists()
