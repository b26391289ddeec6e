"""A project: one folder with `repair.toml`, the captions of one recording and its specification tables."""

import re
import shlex
import tomllib
import unicodedata
from dataclasses import dataclass
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from witnessmark.errors import InputError
from witnessmark.nearest import not_known
from witnessmark.size_limit import check_file
from witnessmark.units import label_of

PROJECT_FILE = "repair.toml"
SCHEMES = ("https", "http", "mailto")
"""Kinds of addresses that a published link may have."""

Text = Annotated[str, Field(min_length=1)]


@dataclass(frozen=True, slots=True)
class Machine:
    """What is repaired, in the creator's words; None where they did not say."""

    kind: str | None = None
    make: str | None = None
    model: str | None = None
    years: str | None = None
    odometer: str | None = None


@dataclass(frozen=True)
class Project:
    """A project as its `repair.toml` describes it. Every path is a file that exists.

    glossary: the creator's own words. heard: pairs of a misheard text and what was said. links: pairs of a promised
    thing and what it points to. units: labels of data/units.toml in the order in which to print them.
    description_limit: characters that the upload's description may have.
    """

    folder: Path
    title: str
    captions: Path
    video: Path | None = None
    specs: tuple[Path, ...] = ()
    machine: Machine = Machine()
    glossary: tuple[str, ...] = ()
    heard: tuple[tuple[str, str], ...] = ()
    links: tuple[tuple[str, str], ...] = ()
    units: tuple[str, ...] = ()
    description_limit: int = 5000


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, str_strip_whitespace=True)


class _MachineTable(_Table):
    kind: Text | None = None
    make: Text | None = None
    model: Text | None = None
    years: Text | None = None
    odometer: Text | None = None


class _UnitsTable(_Table):
    order: list[Text]


class _DescriptionTable(_Table):
    # The statement that the manual comes first and the names of what was left out need some room.
    limit: Annotated[int, Field(ge=500)] = Project.description_limit


class _ProjectTable(_Table):
    title: Text
    captions: Text
    video: Text | None = None
    specs: list[Text] = []
    allow_outside: bool = False
    machine: _MachineTable = _MachineTable()
    glossary: list[Text] | dict[Text, str] = []
    heard: dict[Text, Text] = {}
    links: dict[Text, Text] = {}
    units: list[Text] | _UnitsTable = []
    description: _DescriptionTable = _DescriptionTable()


_EXPECTED = {
    "title": "a text in quotation marks",
    "captions": "the name of one file in quotation marks",
    "video": "the name of one file in quotation marks",
    "specs": 'a list of file names, as in ["specs.csv"]',
    "allow_outside": "true or false",
    "machine": "a table [machine] with texts in quotation marks",
    "glossary": 'a list of words, or a table of word = "meaning"',
    "heard": 'a table of "misheard words" = "what was said"',
    "links": 'a table of "what was promised" = "where it is"',
    "units": 'a list of units in order, as in ["N·m", "lbf·ft"]',
    "description": "a table [description] with limit = 5000 or another whole number of characters, 500 at least",
}


def read_project(folder: Path) -> Project:
    """Read `repair.toml` of a folder.

    Raises InputError that names the key, or the line of a TOML error, where the file cannot be read, a key is unknown
    or of the wrong type, or a file that it names is missing or stands outside the folder.
    """
    table = _checked(_parsed(folder))
    _templates(folder, table.allow_outside)
    units = table.units.order if isinstance(table.units, _UnitsTable) else table.units
    return Project(
        folder=folder,
        title=table.title,
        captions=_file(folder, "captions", table.captions, table.allow_outside),
        video=_file(folder, "video", table.video, table.allow_outside) if table.video else None,
        specs=tuple(_file(folder, "specs", name, table.allow_outside) for name in table.specs),
        machine=Machine(**table.machine.model_dump()),
        glossary=tuple(table.glossary),
        heard=tuple(table.heard.items()),
        links=tuple((name, _address(name, where)) for name, where in table.links.items()),
        units=tuple(dict.fromkeys(map(_unit, units))),
        description_limit=table.description.limit,
    )


def _parsed(folder: Path) -> dict[str, Any]:
    try:
        check_file(folder / PROJECT_FILE, PROJECT_FILE, "a project's settings")
        data = (folder / PROJECT_FILE).read_bytes()
    except OSError as why:
        raise _no_project(folder, why) from None
    try:
        return tomllib.loads(data.decode("utf-8-sig"))
    except UnicodeDecodeError as why:
        line = data.count(b"\n", 0, why.start) + 1
        raise InputError(f"{PROJECT_FILE} line {line}", "the file is not UTF-8", "save it as UTF-8") from None
    except tomllib.TOMLDecodeError as why:
        raise _syntax_error(str(why), data.decode("utf-8-sig")) from None
    except RecursionError:
        raise InputError(PROJECT_FILE, "lists are nested too deeply", "write lists of texts only") from None


def _no_project(folder: Path, why: OSError) -> InputError:
    if folder.is_file():
        remedy = f"name the folder that {PROJECT_FILE} stands in"
        return InputError(str(folder), "this is a file, and no project's folder", remedy)
    problem = f"{PROJECT_FILE} cannot be read ({why.strerror})"
    if not folder.is_dir():
        problem = "there is no such folder"
    elif isinstance(why, FileNotFoundError):
        problem = f"there is no {PROJECT_FILE} in this folder"
    command = shlex.join(["witnessmark", "new", str(folder)])
    return InputError(
        str(folder), problem, f"name the folder of a project, or make one with: {command} --captions FILE"
    )


def _syntax_error(message: str, text: str) -> InputError:
    problem, _, place = message.rpartition(" (at ")
    line = re.search(r"line ([0-9]+)", place)
    number = int(line[1]) if line else text.count("\n") + 1
    remedy = "texts stand in quotation marks, lists in square brackets, each key on a line of its own"
    return InputError(f"{PROJECT_FILE} line {number}", f"this is not TOML: {problem[:1].lower()}{problem[1:]}", remedy)


def _checked(data: dict[str, Any]) -> _ProjectTable:
    try:
        return _ProjectTable.model_validate(data)
    except ValidationError as why:
        errors = why.errors(include_url=False, include_context=False, include_input=False)
    # An unknown key comes first: "caption" explains why "captions" is missing.
    error = min(errors, key=lambda each: each["type"] != "extra_forbidden")
    path = [str(part) for part in error["loc"]]
    if error["type"] == "extra_forbidden":
        raise _unknown_key(path) from None
    if error["type"] == "missing" and path[0] in ("title", "captions"):
        remedy = f"write {path[0]} = {_EXPECTED[path[0]]}"
        raise InputError(PROJECT_FILE, f"key {path[0]!r} is missing", remedy) from None
    key = ".".join(path[:2]) if path[0] in ("machine", "description") else path[0]
    problem = {"string_too_short": "is empty", "greater_than_equal": "is too small"}.get(
        error["type"], "is of the wrong type"
    )
    expected = "a text in quotation marks" if key.startswith("machine.") else _EXPECTED[path[0]]
    raise InputError(f"{PROJECT_FILE} key {key}", f"the value {problem}", f"write {expected}") from None


def _unknown_key(path: list[str]) -> InputError:
    tables: dict[str, type[_Table]] = {"machine": _MachineTable, "units": _UnitsTable, "description": _DescriptionTable}
    known = list((tables[path[0]] if path[1:] else _ProjectTable).model_fields)
    place = f"{PROJECT_FILE} key {'.'.join([path[0], *path[1:][-1:]])}"
    # A key below a [table] header belongs to that table, wherever its author meant it to stand.
    top_level = path[1:] and path[-1] in _ProjectTable.model_fields
    remedy = f"move it above [{path[0]}]" if top_level else f"rename or delete it; known are {', '.join(known)}"
    return InputError(place, not_known("this key", path[-1].casefold(), known), remedy)


def _file(folder: Path, key: str, name: str, allow_outside: bool) -> Path:
    where = f"{PROJECT_FILE} key {key}"
    windows = PureWindowsPath(name)
    leaves = PurePosixPath(name).is_absolute() or bool(windows.drive or windows.root) or ".." in windows.parts
    try:
        path = folder / name
        inside = not leaves and path.resolve().is_relative_to(folder.resolve())
        is_file = path.is_file()
    except (OSError, ValueError):
        raise InputError(
            where, f"{name!r} is not a file name", "write the name of a file in the project's folder"
        ) from None
    if not inside and not allow_outside:
        remedy = "put the file into the folder, or write allow_outside = true above all tables"
        raise InputError(where, f"{name!r} is outside the project's folder", remedy)
    if not is_file:
        raise InputError(where, f"there is no file {name!r} in {folder}", "put the file there, or mend the name")
    return path


def _templates(folder: Path, allow_outside: bool) -> None:
    """The project's own templates are under the same rule as the files it names."""
    for path in (folder / "templates", *(folder / "templates").glob("*")):
        if not allow_outside and not path.resolve().is_relative_to(folder.resolve()):
            where = path.relative_to(folder).as_posix()
            remedy = f"put it into the folder, or write allow_outside = true into {PROJECT_FILE} above all tables"
            raise InputError(where, "this is a link to a place outside the project's folder", remedy)


def _address(name: str, where: str) -> str:
    """What a promise points to. Browsers skip characters that nobody sees in `javascript:` and the like."""
    seen = "".join(each for each in where if unicodedata.category(each) not in ("Cc", "Cf")).strip()
    scheme = re.match(r"([A-Za-z][A-Za-z0-9+.-]*):", seen)
    if scheme and scheme[1].casefold() not in SCHEMES:
        problem = f"{scheme[1]!r} is no kind of address that viewers can be given"
        remedy = f"write an address that begins with {', '.join(SCHEMES)}, or words without a colon"
        raise InputError(f"{PROJECT_FILE} key links.{name}", problem, remedy)
    return where


def _unit(written: str) -> str:
    try:
        return label_of(written)
    except KeyError:
        remedy = "write units such as N·m, lbf·ft, mm, in, L or kPa"
        raise InputError(f"{PROJECT_FILE} key units", f"{written!r} is not a known unit", remedy) from None
