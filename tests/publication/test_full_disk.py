"""A disk that runs full at any point of a build leaves what was written before: tried on a small file system of its own."""

import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

SAMPLE = Path(__file__).parents[2] / "sample_projects" / "wheelbarrow_wheel"
INPUTS = ("repair.toml", "captions.vtt", "specs.csv")
TEXTS = ("facts.json", "findings.md", "guide.md", "guide.html", "description.txt")


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 600 kB with a project on it; skipped where none can be mounted."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=600k", "tmpfs", str(disk)], capture_output=True)
    if mounted.returncode != 0:
        pytest.skip("no file system may be mounted here")
    try:
        for name in INPUTS:
            shutil.copy(SAMPLE / name, disk / name)
        settings = (disk / "repair.toml").read_text(encoding="utf-8").splitlines(keepends=True)
        (disk / "repair.toml").write_text("".join(line for line in settings if not line.startswith("video")))
        yield disk
    finally:
        subprocess.run(["umount", str(disk)], check=True)


def build(disk: Path) -> subprocess.CompletedProcess[str]:
    only = [part for name in TEXTS for part in ("--only", name)]
    command = [sys.executable, "-m", "witnessmark", "build", str(disk), *only]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_a_disk_that_runs_full_leaves_the_former_outputs(small_disk: Path) -> None:
    assert build(small_disk).returncode in (0, 1)
    before = {name: (small_disk / "out" / name).read_bytes() for name in TEXTS}
    captions = small_disk / "captions.vtt"
    captions.write_bytes(captions.read_bytes().replace(b"wheel", b"Wheel"))
    outcomes = []
    for room in (0, 4, 8, 16, 32, 64):
        (small_disk / "fill").write_bytes(b"\0" * max(0, shutil.disk_usage(small_disk).free - room * 1024))
        built = build(small_disk)
        (small_disk / "fill").unlink()
        outcomes.append(built.returncode)
        found = {name: (small_disk / "out" / name).read_bytes() for name in TEXTS}
        if built.returncode == 2:
            assert "No space left on device" in built.stderr and built.stderr.count("\n") == 1, built.stderr
            assert found == before
        else:
            assert all(b"Wheel" in found[name] for name in ("facts.json", "guide.md"))
            break
    assert outcomes[:2] == [2, 2]
