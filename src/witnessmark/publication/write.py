"""Putting the written files in place: all of them or none, and never over what a person has edited."""

import json
import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from witnessmark.errors import InputError
from witnessmark.publication.merge import merged
from witnessmark.publication.moves import KEPT, NEW, file_hash, is_inside, move_all, scratch, sync

MANIFEST = ".witnessmark.json"
MERGED = frozenset({".md", ".txt", ".vtt", ".srt", ".csv", ".html", ".ffmeta"})
"""Endings of texts that can be merged line by line; JSON or XML merged so may no longer be JSON or XML."""

Content = str | bytes | Path
"""A text, bytes, or a finished file that is moved into place: what is too large to hold in memory."""


@dataclass(frozen=True, slots=True)
class Written:
    """One file put in place.

    kept: the edited file that it was written beside, None where there is none. merged: whether it holds a person's edits.
    """

    path: Path
    kept: str | None = None
    merged: bool = False


@dataclass(slots=True)
class _Plan:
    """What is to be moved into `out`. placed: name to hash. files: the manifest's, the hash of what was written anew."""

    out: Path
    staging: Path
    known: Mapping[str, str]
    placed: dict[str, str] = field(default_factory=dict)
    files: dict[str, str] = field(default_factory=dict)


def write_files(
    out: Path, contents: Mapping[str, Content], whole: Collection[str] = (), within: Path | None = None
) -> tuple[Written, ...]:
    """Write files, name to content, into a folder. A name may hold a folder: `cards/c01.png`.

    Everything is first written into a scratch folder and only then moved, so that a failure leaves what was there. A text
    that somebody edited since it was written is merged with the new one; where both changed the same lines, or it is no
    text, the edited file stays and the new one is put beside it as NAME.new.
    whole: folders in which nothing unedited is left of what an earlier call wrote and this one does not.
    within: the scratch folder of `out`, where one is open.
    Raises InputError where the folder cannot be written.
    """
    if within is None:
        with scratch(out) as folder:
            return _place(out, folder, contents, whole)
    return _place(out, within, contents, whole)


def edited(out: Path, names: Iterable[str]) -> list[str]:
    """Those of the files that a person has edited, or put there, since they were last written into a folder."""
    known = _known(out)
    return [name for name in names if (out / name).is_file() and _hash_of(out / name) != known.get(name)]


def _place(out: Path, folder: Path, contents: Mapping[str, Content], whole: Collection[str]) -> tuple[Written, ...]:
    _check_places(out, [*contents, *(f"{name}.new" for name in contents), MANIFEST])
    plan = _Plan(out, folder / NEW, _known(out))
    written = tuple(_stage(plan, name, content) for name, content in contents.items())
    removed = [*_unwanted(plan, contents, whole), *_superseded(plan)]
    kept = {name: digest for name, digest in plan.known.items() if _still_told(out, name) and name not in removed}
    files = kept | plan.files
    manifest = {"format": "witnessmark-manifest", "version": 1, "files": files}
    plan.placed[MANIFEST] = _save(plan.staging / MANIFEST, json.dumps(manifest, indent=1) + "\n")
    changed = {name: digest for name, digest in plan.placed.items() if _hash_of(out / name) != digest}
    move_all(out, folder, changed, removed)
    _forget(out, {*files.values()})
    return written


def _stage(plan: _Plan, name: str, content: Content) -> Written:
    """Puts one file among what is to be moved: as it is, merged with a person's edits, or beside an edited file."""
    digest = _save(plan.staging / name, content)
    mergeable = isinstance(content, str) and Path(name).suffix in MERGED
    if mergeable:
        plan.placed[f"{KEPT}/{digest}"] = _save(plan.staging / KEPT / digest, content)
    if not _edited(plan, name, digest):
        plan.placed[name] = plan.files[name] = digest
        return Written(plan.out / name)
    last = _last_written(plan, name)
    text = _with_edits(plan.out, name, last, str(content)) if mergeable and last else None
    if text is not None:
        plan.placed[name] = _save(plan.staging / name, text)
        plan.files[name] = digest
        return Written(plan.out / name, merged=True)
    if last:
        plan.files[name] = last
    beside = f"{name}.new"
    while _edited(plan, beside, digest):
        beside += ".new"
    (plan.staging / name).replace(plan.staging / beside)
    plan.placed[beside] = plan.files[beside] = digest
    return Written(plan.out / beside, name)


def _with_edits(out: Path, name: str, last: str, new: str) -> bytes | None:
    """A new text with a person's edits in it; None where they clash, or one of the texts is none or is gone."""
    kept = out / KEPT / last
    if _hash_of(kept) != last:
        return None
    try:
        text = merged(kept.read_bytes().decode("utf-8"), (out / name).read_bytes().decode("utf-8"), new)
    except UnicodeDecodeError:
        return None
    return None if text is None else text.encode("utf-8")


def _last_written(plan: _Plan, name: str) -> str | None:
    """Hash of the text that a person's edits began with. Whoever took NAME.new away has seen to what is new in it."""
    beside = f"{name}.new"
    seen = beside in plan.known and not (plan.out / beside).exists()
    return plan.known[beside] if seen else plan.known.get(name)


def _check_places(out: Path, names: Iterable[str]) -> None:
    """Moving stops at a folder that bears a file's name, or a file that bears a folder's: found out before anything is moved."""
    for name in names:
        if (out / name).is_dir():
            raise InputError(str(out / name), "a folder stands where a file is to be written", "move it away")
        if (out / name).parent.is_file():
            raise InputError(str((out / name).parent), "a file stands where a folder is to be made", "move it away")


def _unwanted(plan: _Plan, written: Collection[str], whole: Collection[str]) -> list[str]:
    """What an earlier call wrote into the folders that hold nothing else, and nobody edited since."""
    taken = {*written, *plan.files}
    former = [name for name in plan.known if name not in taken and name.rpartition("/")[0] in whole]
    return [name for name in former if _hash_of(plan.out / name) in (None, plan.known[name])]


def _superseded(plan: _Plan) -> list[str]:
    """A former NAME.new, unless somebody edited it, once NAME itself is written again."""
    beside = [name for name in plan.known if name.endswith(".new") and name not in plan.files]
    former = [name for name in beside if re.sub(r"(\.new)+$", "", name) in plan.placed]
    return [name for name in former if _hash_of(plan.out / name) == plan.known[name]]


def _still_told(out: Path, name: str) -> bool:
    """A NAME.new that was taken away is told of no more: it counts as seen once."""
    return not name.endswith(".new") or (out / name).exists()


def _forget(out: Path, wanted: Collection[str]) -> None:
    """Keeps, of the texts last written, those that the manifest tells of."""
    for path in (out / KEPT).iterdir():
        if len(path.name) == 64 and path.name not in wanted:
            path.unlink(missing_ok=True)


def _known(out: Path) -> dict[str, str]:
    """Hashes of the files as they were last written; a manifest that cannot be read vouches for none.

    A name that leads out of the folder is nothing that was written into it, nor is a hash that is none.
    """
    try:
        manifest: Any = json.loads((out / MANIFEST).read_text(encoding="utf-8"))
        files = manifest["files"].items()
        return {name: digest for name, digest in files if is_inside(name) and len(digest) == 64 and digest.isalnum()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _edited(plan: _Plan, name: str, new: str) -> bool:
    """Whether a file is no longer as it was written; without a manifest it is, unless it equals the new one."""
    return _hash_of(plan.out / name) not in (None, plan.known.get(name), new)


def _hash_of(path: Path) -> str | None:
    return file_hash(path) if path.exists() else None


def _save(path: Path, content: Content) -> str:
    """Puts content at a path, safely on the disk; its hash."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(content, Path):
        content.replace(path)
    else:
        path.write_bytes(content.encode("utf-8") if isinstance(content, str) else content)
    sync(path)
    return file_hash(path)
