"""Putting the written files in place: all of them or none, and never over what a person has edited."""

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Any

from witnessmark.errors import InputError

MANIFEST = ".witnessmark.json"

Content = str | bytes | Path
"""A text, bytes, or a finished file that is moved into place: what is too large to hold in memory."""


@dataclass(frozen=True, slots=True)
class Written:
    """One file put in place. kept: the edited file that it was written beside, None where there is none."""

    path: Path
    kept: str | None = None


def write_files(out: Path, contents: Mapping[str, Content], whole: Collection[str] = ()) -> tuple[Written, ...]:
    """Write files, name to content, into a folder. A name may hold a folder: `cards/c01.png`.

    Everything is first written into a temporary folder beside the target and only then moved, so that a failure leaves
    what was there. A file that somebody edited since it was written stays; the new one is put beside it as NAME.new.
    whole: folders in which nothing unedited is left of what an earlier call wrote and this one does not.
    Raises InputError where the folder cannot be written.
    """
    try:
        with scratch(out) as staging:
            return _place(out, staging, contents, whole)
    except OSError as why:
        raise _cannot_write(out, why) from None


@contextmanager
def scratch(out: Path) -> Iterator[Path]:
    """A temporary folder inside `out`, which is made: what is written there is moved into place without copying."""
    try:
        out.mkdir(parents=True, exist_ok=True)
        folder = Path(tempfile.mkdtemp(prefix=".witnessmark-", dir=out))
    except OSError as why:
        raise _cannot_write(out, why) from None
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _place(out: Path, staging: Path, contents: Mapping[str, Content], whole: Collection[str]) -> tuple[Written, ...]:
    _check_places(out, [*contents, *(f"{name}.new" for name in contents), MANIFEST])
    known = _known(out)
    hashes: dict[str, str] = {}
    written: list[Written] = []
    for name, content in contents.items():
        digest = _save(staging / name, content)
        edited = _edited(out / name, known.get(name), digest)
        target = f"{name}.new" if edited else name
        if edited:
            (staging / name).replace(staging / target)
        hashes[target] = digest
        written.append(Written(out / target, name if edited else None))
    former = _unwanted(out, known, {*contents, *hashes}, whole)
    kept = {name: digest for name, digest in known.items() if name not in former}
    manifest = {"format": "witnessmark-manifest", "version": 1, "files": kept | hashes}
    _save(staging / MANIFEST, json.dumps(manifest, indent=1) + "\n")
    for name in [*hashes, MANIFEST]:
        (out / name).parent.mkdir(parents=True, exist_ok=True)
        (staging / name).replace(out / name)
    for name in former:
        (out / name).unlink(missing_ok=True)
    _clear_superseded(out, hashes, known)
    return tuple(written)


def _check_places(out: Path, names: Iterable[str]) -> None:
    """Moving stops at a folder that bears a file's name, or a file that bears a folder's: found out before anything is moved."""
    for name in names:
        if (out / name).is_dir():
            raise InputError(str(out / name), "a folder stands where a file is to be written", "move it away")
        if (out / name).parent.is_file():
            raise InputError(str((out / name).parent), "a file stands where a folder is to be made", "move it away")


def _unwanted(out: Path, known: Mapping[str, str], written: Collection[str], whole: Collection[str]) -> list[str]:
    """What an earlier call wrote into the folders that hold nothing else, and nobody edited since."""
    former = [name for name in known if name not in written and name.rpartition("/")[0] in whole]
    return [name for name in former if not (out / name).is_file() or _hash(out / name) == known[name]]


def _clear_superseded(out: Path, written: Iterable[str], known: Mapping[str, str]) -> None:
    """Takes away a former NAME.new, unless somebody edited it, once NAME itself is written again."""
    for name in written:
        former = out / f"{name}.new"
        if former.is_file() and _hash(former) == known.get(f"{name}.new"):
            former.unlink()


def _known(out: Path) -> dict[str, str]:
    """Hashes of the files as they were last written; a manifest that cannot be read vouches for none.

    A name that leads out of the folder is nothing that was written into it.
    """
    try:
        manifest: Any = json.loads((out / MANIFEST).read_text(encoding="utf-8"))
        files = manifest["files"]
        return {name: digest for name, digest in files.items() if isinstance(digest, str) and _inside(name)}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _inside(name: str) -> bool:
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and "\\" not in name and ":" not in name


def _edited(path: Path, known: str | None, new: str) -> bool:
    """Whether a file is no longer as it was written; without a manifest it is, unless it equals the new one."""
    return path.exists() and _hash(path) not in (known, new)


def _save(path: Path, content: Content) -> str:
    """Puts content at a path, safely on the disk; its hash."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(content, Path):
        content.replace(path)
    else:
        path.write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
    with path.open("r+b") as file:
        os.fsync(file.fileno())
    return _hash(path)


def _hash(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _cannot_write(out: Path, why: OSError) -> InputError:
    return InputError(
        str(out),
        f"cannot be written ({why.strerror})",
        "check the folder and its permissions, or name another with --out",
    )
