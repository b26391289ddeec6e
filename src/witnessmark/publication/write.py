"""Putting the written files in place: all of them or none, and never over what a person has edited."""

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from witnessmark.errors import InputError

MANIFEST = ".witnessmark.json"


@dataclass(frozen=True, slots=True)
class Written:
    """One file put in place. kept: the edited file that it was written beside, None where there is none."""

    path: Path
    kept: str | None = None


def write_files(out: Path, contents: Mapping[str, str]) -> tuple[Written, ...]:
    """Write files, name to text, into a folder.

    Everything is first written into a temporary folder beside the target and only then moved, so that a failure leaves
    what was there. A file that somebody edited since it was written stays; the new one is put beside it as NAME.new.
    Raises InputError where the folder cannot be written.
    """
    try:
        out.mkdir(parents=True, exist_ok=True)
        staging = Path(tempfile.mkdtemp(prefix=".witnessmark-", dir=out))
    except OSError as why:
        raise _cannot_write(out, why) from None
    try:
        return _place(out, staging, contents)
    except OSError as why:
        raise _cannot_write(out, why) from None
    finally:
        shutil.rmtree(staging, ignore_errors=True)


def _place(out: Path, staging: Path, contents: Mapping[str, str]) -> tuple[Written, ...]:
    _check_places(out, [*contents, *(f"{name}.new" for name in contents), MANIFEST])
    known = _known(out)
    written: list[Written] = []
    for name, text in contents.items():
        edited = _edited(out / name, known.get(name), text)
        target = f"{name}.new" if edited else name
        _save(staging / target, text)
        written.append(Written(out / target, name if edited else None))
    hashes = known | {each.path.name: _hash((staging / each.path.name).read_bytes()) for each in written}
    _save(
        staging / MANIFEST,
        json.dumps({"format": "witnessmark-manifest", "version": 1, "files": hashes}, indent=1) + "\n",
    )
    names = [*(each.path.name for each in written), MANIFEST]
    for name in names:
        (staging / name).replace(out / name)
    _clear_superseded(out, written, known)
    return tuple(written)


def _check_places(out: Path, names: Iterable[str]) -> None:
    """Moving stops at a folder that bears a file's name: found out before anything is moved."""
    taken = next((name for name in names if (out / name).is_dir()), None)
    if taken is not None:
        raise InputError(str(out / taken), "a folder stands where a file is to be written", "move it away")


def _clear_superseded(out: Path, written: Iterable[Written], known: Mapping[str, str]) -> None:
    """Takes away a former NAME.new, unless somebody edited it, once NAME itself is written again."""
    for each in written:
        former = out / f"{each.path.name}.new"
        if each.kept is None and former.is_file() and _hash(former.read_bytes()) == known.get(former.name):
            former.unlink()


def _known(out: Path) -> dict[str, str]:
    """Hashes of the files as they were last written; a manifest that cannot be read vouches for none."""
    try:
        manifest: Any = json.loads((out / MANIFEST).read_text(encoding="utf-8"))
        files = manifest["files"]
        return {name: digest for name, digest in files.items() if isinstance(digest, str)}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _edited(path: Path, digest: str | None, text: str) -> bool:
    """Whether a file is no longer as it was written; without a manifest it is, unless it equals the new text."""
    if not path.exists():
        return False
    data = path.read_bytes()
    return _hash(data) != digest and data != text.encode("utf-8")


def _save(path: Path, text: str) -> None:
    with path.open("w", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


def _hash(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _cannot_write(out: Path, why: OSError) -> InputError:
    return InputError(
        str(out),
        f"cannot be written ({why.strerror})",
        "check the folder and its permissions, or name another with --out",
    )
