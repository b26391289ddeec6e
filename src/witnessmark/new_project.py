"""Starting a project from a captions file: repair.toml, the captions, and a table to fill in from the manual."""

import csv
import json
import shlex
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from witnessmark.errors import InputError
from witnessmark.language.speech import read_speech
from witnessmark.project import PROJECT_FILE
from witnessmark.proof.wording import clock
from witnessmark.publication.escape import printable
from witnessmark.publication.findings import left_out
from witnessmark.publication.namings import NOT_MEANT
from witnessmark.publication.sizes import joined_sizes
from witnessmark.publication.terminal import not_read
from witnessmark.reading.model import Mention
from witnessmark.reading.read import read
from witnessmark.specs.table import UNNAMED, SpecTable
from witnessmark.transcript import read_transcript

TABLE_FILE = "specs.csv"
COLUMNS = ("item", "also_called", "property", "value", "tool_size", "source")
PROPERTIES = {
    "torque": "torque",
    "capacity": "capacity",
    "grade": "grade",
    "pressure": "pressure",
    "gap": "gap",
    "thickness": "thickness",
    "depth": "depth",
    "voltage": "voltage",
    "resistance": "resistance",
    "current": "current",
    "capacitance": "capacitance",
    "flow": "flow",
    "temperature": "temperature",
    "interval": "interval",
}
"""The property under which a manual has each kind of value; other kinds are seldom specified."""

_TOML = """\
# The project of one recording. Lines that begin with # are notes; take the # away to use them.
title = {title}
captions = {captions}
# video = "footage.mp4"
specs = ["{table}"]

[machine]
# kind = "family hatchback"
# make = ""
# model = ""
# years = ""
# odometer = ""

# [heard]                        what the captions have wrong, and what was said
# "break pads" = "brake pads"

# [links]                        what you promised to link, and where it is
# "the parts list" = "https://example.com/parts"
"""


@dataclass(frozen=True, slots=True)
class Started:
    """A project begun. written: its files. Lines: notes: what was odd in the captions; left_out: what is not read; to_do."""

    written: tuple[Path, ...]
    notes: tuple[str, ...]
    left_out: tuple[str, ...]
    to_do: tuple[str, ...]


def start_project(folder: Path, captions: Path, title: str | None = None) -> Started:
    """Make a project in a folder.

    specs.csv gets a row for each thing that the captions give a value for, the value left empty: it comes from the
    manual and never from the recording. title: by default the folder's name. Overwrites nothing; raises InputError
    where a file is there already, the captions cannot be read, or the folder cannot be written.
    """
    transcript = read_transcript(captions)
    inside = folder / captions.name
    copied = not (inside.exists() and inside.samefile(captions))
    names = [PROJECT_FILE, TABLE_FILE, *([captions.name] if copied else [])]
    _refuse_to_overwrite(folder, names)
    rows = _rows(read(read_speech(transcript), SpecTable(())).mentions)
    name = title or folder.resolve().name
    texts = {PROJECT_FILE: _project_text(name, captions.name), TABLE_FILE: _table_text(rows)}
    _write(folder, texts, captions if copied else None)
    notes = tuple(f"{captions.name} line {note.line}: {note.message}" for note in transcript.notes)
    written = tuple(folder / each for each in names)
    return Started(written, notes, left_out(captions.name, transcript), tuple(_to_do(folder, rows)))


def started_lines(started: Started) -> Iterator[str]:
    """What a project was begun with, what of the captions was not read, and what to do next."""
    for path in started.written:
        yield f"wrote {path}"
    if started.left_out:
        yield not_read(started.left_out)
    yield from started.to_do


def _refuse_to_overwrite(folder: Path, names: list[str]) -> None:
    if len(set(names)) != len(names):
        raise InputError(names[-1], "a project keeps another file under this name", "give the captions another name")
    there = next((folder / name for name in names if (folder / name).exists()), None)
    if there is not None:
        raise InputError(
            str(there), "this file is there already and is kept", "name another folder, or move the file away"
        )


def _write(folder: Path, texts: dict[str, str], captions: Path | None) -> None:
    """All files in a temporary folder first, then moved into place."""
    made = not folder.exists()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".witnessmark-", dir=folder) as staging:
            for name, text in texts.items():
                (Path(staging) / name).write_text(text, encoding="utf-8", newline="\n")
            if captions is not None:
                shutil.copyfile(captions, Path(staging) / captions.name)
            for each in sorted(Path(staging).iterdir()):
                each.rename(folder / each.name)
    except OSError as why:
        if made and folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
        problem = f"cannot be written ({why.strerror})"
        raise InputError(str(folder), problem, "check the folder and its permissions") from None


def _project_text(title: str, captions: str) -> str:
    quoted = (json.dumps(printable(text), ensure_ascii=False) for text in (title, captions))
    return _TOML.format(**dict(zip(("title", "captions"), quoted, strict=True)), table=TABLE_FILE)


def _rows(mentions: Iterable[Mention]) -> list[tuple[str, ...]]:
    """The cells of a row for each thing that a value is said of, in the order of COLUMNS."""
    meant = [mention for mention in mentions if mention.role not in NOT_MEANT]
    rows: dict[tuple[str, str], None] = {}
    for mention in meant:
        if mention.kind in PROPERTIES and mention.restates is None:
            rows.setdefault((_item(mention), PROPERTIES[mention.kind]))
    return [(item, "", kind, "", _sizes(item, meant) if kind == "torque" else "", "") for item, kind in rows]


def _to_do(folder: Path, rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    """What the creator does next, a line each."""
    table = folder / TABLE_FILE
    if not rows:
        yield f"next: no value was found in the captions; add a row to {table} for each value that the manual gives"
    else:
        count = "1 row" if len(rows) == 1 else f"{len(rows)} rows"
        names = (
            f"; put a name where {UNNAMED!r} a time stands" if any(row[0].startswith(UNNAMED) for row in rows) else ""
        )
        yield f"next: fill in value and source in {table} from the workshop manual ({count}){names}"
    yield f"then: {shlex.join(['witnessmark', 'proof', str(folder)])}"


def _table_text(rows: Iterable[tuple[str, ...]]) -> str:
    text = StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow(COLUMNS)
    table.writerows(rows)
    return text.getvalue()


def _item(mention: Mention) -> str:
    """The thing as it is called; where none is named, when the value is said, for the creator to name it."""
    return printable(mention.item) if mention.item else f"{UNNAMED} {clock(mention.start)}"


def _sizes(item: str, mentions: Iterable[Mention]) -> str:
    found = {mention.size for mention in mentions if mention.size and mention.item and printable(mention.item) == item}
    return joined_sizes(found) or "" if len(found) == 1 else ""
