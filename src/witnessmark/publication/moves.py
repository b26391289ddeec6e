"""Many files moved into a folder as one: a journal on the disk lets what was cut short be undone by the next build.

Each file is moved by one rename, so that a reader of the folder sees it whole, as it was or as it is to be. Among the
renames, which take no longer than a moment, some files are new and others not yet. A process killed in that moment
leaves them so; the next build first puts back every former file from its copy in the scratch folder.
"""

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import Any

from filelock import FileLock, Timeout

from witnessmark.errors import InputError

KEPT = ".witnessmark"
"""Folder of the texts as they were last written, and of the lock."""
SCRATCH = ".witnessmark-"
NEW, FORMER, JOURNAL = "new", "former", "journal.json"


@contextmanager
def scratch(out: Path) -> Iterator[Path]:
    """A temporary folder inside `out`, which is made: what is written there is moved into place without copying.

    `out` is this process's alone meanwhile, and what a killed build left in it is undone and cleared away.
    Raises InputError where another build writes into `out`, or where it cannot be written.
    """
    try:
        (out / KEPT).mkdir(parents=True, exist_ok=True)
        with FileLock(out / KEPT / "lock", timeout=0):
            recover(out)
            folder = Path(tempfile.mkdtemp(prefix=SCRATCH, dir=out))
            try:
                yield folder
            finally:
                _clear(folder)
    except Timeout:
        raise InputError(str(out), "another build is writing into this folder", "wait until it has ended") from None
    except OSError as why:
        raise _cannot_write(out, why) from None


def move_all(out: Path, folder: Path, placed: Mapping[str, str], removed: Collection[str]) -> None:
    """Move the files of `new/` in a scratch folder, name to hash, into `out`, and take others away: all of it, or nothing.

    Raises OSError where that cannot be done; `out` is then as it was, or will be once `recover` can put it back.
    """
    existed = [name for name in (*placed, *removed) if _there(out / name)]
    try:
        _write_journal(folder, {"placed": dict(placed), "existed": existed})
        for name in (*placed, *removed):
            (out / name).parent.mkdir(parents=True, exist_ok=True)
            if name in existed:
                _keep(out / name, folder / FORMER / name)
            if name in placed:
                (folder / NEW / name).replace(out / name)
            else:
                (out / name).unlink(missing_ok=True)
        for each in {out, *((out / name).parent for name in placed)}:
            _sync_folder(each)
    except BaseException:
        _undo(out, folder)
        raise
    (folder / JOURNAL).unlink()


def recover(out: Path) -> None:
    """Undo what killed builds did by halves, and clear away their scratch folders. Raises OSError where it cannot."""
    for folder in sorted(out.glob(f"{SCRATCH}*")):
        if folder.is_dir() and not folder.is_symlink():
            _undo(out, folder)
            _clear(folder)


def is_inside(name: str) -> bool:
    """Whether a name read from a file of the folder stays in the folder."""
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and "\\" not in name and ":" not in name


def file_hash(path: Path) -> str:
    """SHA-256 of a file, in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def sync(path: Path) -> None:
    """Have a file safely on the disk."""
    with path.open("r+b") as file:
        os.fsync(file.fileno())


def _undo(out: Path, folder: Path) -> None:
    """Put every former file back. What somebody edited since is nobody's to move: only what this journal placed is."""
    placed, existed = _read_journal(folder)
    for name in {**placed, **dict.fromkeys(existed)}:
        former, now = folder / FORMER / name, out / name
        ours = _there(now) and file_hash(now) == placed.get(name)
        if _there(former) and (ours or not _there(now)):
            former.replace(now)
        elif ours and name not in existed:
            now.unlink()
    (folder / JOURNAL).unlink(missing_ok=True)


def _keep(path: Path, former: Path) -> None:
    """A second name for a file, which costs no room; where the disk knows no second names, the file itself."""
    former.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(path, former, follow_symlinks=False)
    except (OSError, NotImplementedError):
        path.replace(former)


def _write_journal(folder: Path, journal: Mapping[str, Any]) -> None:
    draft = folder / f"{JOURNAL}.draft"
    draft.write_text(json.dumps(journal), encoding="utf-8")
    sync(draft)
    draft.replace(folder / JOURNAL)
    _sync_folder(folder)


def _read_journal(folder: Path) -> tuple[dict[str, str], list[str]]:
    """Names placed with their hashes, and names that were there before; none where no move had begun."""
    try:
        journal: Any = json.loads((folder / JOURNAL).read_text(encoding="utf-8"))
        placed = {name: digest for name, digest in journal["placed"].items() if is_inside(name)}
        return placed, [name for name in journal["existed"] if is_inside(name)]
    except (FileNotFoundError, ValueError, KeyError, TypeError, AttributeError):
        return {}, []


def _clear(folder: Path) -> None:
    """A folder whose journal still stands holds the only copies of former files: it stays until they are put back."""
    if not (folder / JOURNAL).exists():
        shutil.rmtree(folder, ignore_errors=True)


def _sync_folder(folder: Path) -> None:
    if os.name == "nt":
        return  # Windows opens no folder, and keeps renames in a journal of its own.
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _there(path: Path) -> bool:
    return os.path.lexists(path)


def _cannot_write(out: Path, why: OSError) -> InputError:
    return InputError(
        str(out),
        f"cannot be written ({why.strerror or why})",
        "check the folder, the room on the disk and your permissions, or name another folder with --out",
    )
