"""Reading repair.toml: every case is a file as a creator might write it, above what comes of it. All invented."""

from pathlib import Path

import pytest

from witnessmark.errors import InputError
from witnessmark.project import Machine, read_project

RECORDINGS = Path(__file__).parents[2] / "shared" / "recordings"

WHOLE = """
title = "Marwin 3: drive belt"
captions = "belt.vtt"
video = "belt.mp4"
specs = ["specs.csv", "bolts.csv"]
glossary = ["idler arm", "Marwin"]
units = ["Nm", "ft-lb", "N·m"]

[machine]
kind = "tumble dryer"
make = "Marwin"
model = "3"
years = "2014-2016"
odometer = "3100 h"

[heard]
"either arm" = "idler arm"

[links]
"the fuse video" = "https://example.org/fuse"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    inside = tmp_path / "dryer"
    inside.mkdir()
    for name in ("belt.vtt", "belt.mp4", "specs.csv", "bolts.csv"):
        (inside / name).write_text("", encoding="utf-8")
    (tmp_path / "outside.csv").write_text("", encoding="utf-8")
    return inside


def write(folder: Path, text: str) -> Path:
    (folder / "repair.toml").write_text(text, encoding="utf-8")
    return folder


def test_whole_file(folder: Path) -> None:
    project = read_project(write(folder, WHOLE))
    assert project.title == "Marwin 3: drive belt"
    assert project.captions == folder / "belt.vtt"
    assert project.video == folder / "belt.mp4"
    assert project.specs == (folder / "specs.csv", folder / "bolts.csv")
    assert project.machine == Machine("tumble dryer", "Marwin", "3", "2014-2016", "3100 h")
    assert project.glossary == ("idler arm", "Marwin")
    assert project.heard == (("either arm", "idler arm"),)
    assert project.links == (("the fuse video", "https://example.org/fuse"),)
    assert project.units == ("N·m", "lbf·ft")


def test_only_what_is_required(folder: Path) -> None:
    project = read_project(write(folder, 'title = "Belt"\ncaptions = "belt.vtt"\n'))
    assert (project.video, project.specs, project.machine, project.units) == (None, (), Machine(), ())


def test_glossary_and_units_as_tables(folder: Path) -> None:
    text = 'title = "Belt"\ncaptions = "belt.vtt"\n[glossary]\nidler = "the wheel that tightens the belt"\n'
    project = read_project(write(folder, text + '[units]\norder = ["kPa", "psi"]\n'))
    assert project.glossary == ("idler",)
    assert project.units == ("kPa", "psi")


def test_the_length_of_the_description(folder: Path) -> None:
    text = 'title = "Belt"\ncaptions = "belt.vtt"\n'
    assert read_project(write(folder, text)).description_limit == 5000
    assert read_project(write(folder, text + "[description]\nlimit = 1500\n")).description_limit == 1500


def test_byte_order_mark_and_windows_line_ends(folder: Path) -> None:
    (folder / "repair.toml").write_bytes(b'\xef\xbb\xbftitle = "Belt"\r\ncaptions = "belt.vtt"\r\n')
    assert read_project(folder).title == "Belt"


def test_file_outside_where_that_is_allowed(folder: Path) -> None:
    text = 'title = "Belt"\ncaptions = "belt.vtt"\nspecs = ["../outside.csv"]\nallow_outside = true\n'
    assert read_project(write(folder, text)).specs == (folder / "../outside.csv",)


BASE = 'title = "Belt"\ncaptions = "belt.vtt"\n'
REFUSED = {
    "unknown key": ('title = "Belt"\ncaption = "belt.vtt"\n', ["key caption", "'captions'"]),
    "unknown key of a table": (BASE + '[machine]\nmodle = "3"\n', ["key machine.modle", "'model'"]),
    "top-level key below a table": (
        BASE + '[machine]\nspecs = ["specs.csv"]\n',
        ["machine.specs", "move it above [machine]"],
    ),
    "unknown key of units": (BASE + "[units]\nordre = []\n", ["key units.ordre", "'order'"]),
    "missing key": ('title = "Belt"\n', ["'captions' is missing"]),
    "empty title": ('title = " "\ncaptions = "belt.vtt"\n', ["key title", "is empty"]),
    "number for a text": ('title = 3\ncaptions = "belt.vtt"\n', ["key title", "a text in quotation marks"]),
    "text for a list": (BASE + 'specs = "specs.csv"\n', ["key specs", 'as in ["specs.csv"]']),
    "number in a list": (BASE + "specs = [3]\n", ["key specs", "a list of file names"]),
    "number for a year": (BASE + "[machine]\nyears = 2014\n", ["key machine.years", "quotation marks"]),
    "text for a table": (BASE + 'machine = "dryer"\n', ["key machine", "a table [machine]"]),
    "number in heard": (BASE + "[heard]\nfive = 5\n", ["key heard", "what was said"]),
    "number for a glossary": (BASE + "glossary = 3\n", ["key glossary", "a list of words"]),
    "text for true": (BASE + 'allow_outside = "yes"\n', ["key allow_outside", "true or false"]),
    "unknown key of description": (BASE + "[description]\nlimits = 5\n", ["key description.limits", "'limit'"]),
    "too short a description": (BASE + "[description]\nlimit = 499\n", ["description.limit", "too small", "500"]),
    "text for a limit": (BASE + '[description]\nlimit = "5000"\n', ["description.limit", "wrong type", "limit = 5000"]),
    "unknown unit": (BASE + 'units = ["N·m", "furlong"]\n', ["key units", "'furlong'"]),
    "not TOML": ('title = "Belt"\ncaptions = belt.vtt\n', ["repair.toml line 2", "not TOML"]),
    "text never closed": ('title = "Belt"\n\ncaptions = "belt.vtt\n', ["repair.toml line 3", "not TOML"]),
    "list never closed": (BASE + 'specs = ["specs.csv"', ["repair.toml line 3", "not TOML"]),
    "key twice": (BASE + 'title = "Again"\n', ["repair.toml line 3"]),
    "lists without end": (BASE + "specs = " + "[" * 100_000, ["repair.toml", "nested"]),
    "missing captions": ('title = "Belt"\ncaptions = "bolt.vtt"\n', ["key captions", "no file 'bolt.vtt'"]),
    "missing table": (BASE + 'specs = ["specs.csv", "more.csv"]\n', ["key specs", "no file 'more.csv'"]),
    "folder for a file": ('title = "Belt"\ncaptions = "."\n', ["key captions", "no file '.'"]),
    "file above the folder": (BASE + 'specs = ["../outside.csv"]\n', ["key specs", "outside", "allow_outside = true"]),
    "up and back again": (BASE + 'specs = ["../dryer/specs.csv"]\n', ["key specs", "outside"]),
    "absolute path": (BASE + 'video = "/etc/hostname"\n', ["key video", "outside"]),
    "drive of another system": (BASE + 'video = "C:\\\\clips\\\\a.mp4"\n', ["key video", "outside"]),
    "no file name at all": (BASE + 'video = "a\\u0000b"\n', ["key video", "not a file name"]),
}


def test_no_far_key_is_suggested(folder: Path) -> None:
    with pytest.raises(InputError, match="this key is not known; rename or delete it; known are title, captions"):
        read_project(write(folder, BASE + 'colour = "red"\n'))


@pytest.mark.parametrize(("text", "told"), REFUSED.values(), ids=REFUSED.keys())
def test_refused_in_one_line(folder: Path, text: str, told: list[str]) -> None:
    with pytest.raises(InputError) as refused:
        read_project(write(folder, text))
    line = str(refused.value)
    assert "\n" not in line
    assert [part for part in told if part not in line] == [], line


def test_link_out_of_the_folder_is_outside(folder: Path) -> None:
    (folder / "linked.csv").symlink_to(folder.parent / "outside.csv")
    with pytest.raises(InputError, match="outside the project's folder"):
        read_project(write(folder, BASE + 'specs = ["linked.csv"]\n'))


@pytest.mark.parametrize("key", ["captions", "video"])
def test_a_large_file_elsewhere_is_named_with_the_remedy(folder: Path, key: str) -> None:
    elsewhere = folder.parent / "outside.csv"
    text = {"captions": "belt.vtt"} | {key: elsewhere.as_posix()}
    lines = "".join(f'{name} = "{value}"\n' for name, value in text.items())
    with pytest.raises(InputError, match=f"key {key}: .* is outside the project's folder; .*allow_outside = true"):
        read_project(write(folder, f'title = "Belt"\n{lines}'))
    assert getattr(read_project(write(folder, f'title = "Belt"\nallow_outside = true\n{lines}')), key) == elsewhere


def test_templates_linked_from_elsewhere_are_outside(folder: Path) -> None:
    (folder / "templates").mkdir()
    (folder / "templates" / "guide.md.j2").symlink_to(folder.parent / "outside.csv")
    with pytest.raises(InputError, match=r"templates/guide\.md\.j2: this is a link to a place outside"):
        read_project(write(folder, BASE))
    assert read_project(write(folder, BASE + "allow_outside = true\n")).title == "Belt"


@pytest.mark.parametrize(
    "address", ["javascript:alert(1)", "JavaScript:x", "java\\u200bscript:x", "data:text/html,x", "file:///x"]
)
def test_links_that_could_run_something_are_refused(folder: Path, address: str) -> None:
    with pytest.raises(InputError, match=r"links\.pads: .* is no kind of address"):
        read_project(write(folder, f'{BASE}[links]\npads = "{address}"\n'))


def test_links_may_be_addresses_or_words(folder: Path) -> None:
    for where in ("https://parts.example/a:b", "mailto:me@parts.example", "the third video: pads"):
        assert read_project(write(folder, f'{BASE}[links]\npads = "{where}"\n')).links == (("pads", where),)


def test_no_folder_and_no_file(folder: Path) -> None:
    with pytest.raises(InputError, match="there is no such folder"):
        read_project(folder / "nowhere")
    with pytest.raises(InputError, match=r"there is no repair\.toml in this folder; .*witnessmark new"):
        read_project(folder)
    with pytest.raises(InputError, match=r"belt\.vtt: this is a file, and no project's folder; name the folder"):
        read_project(folder / "belt.vtt")


def test_not_utf_8_names_the_line(folder: Path) -> None:
    (folder / "repair.toml").write_bytes('title = "Belt"\nmachine = "Trockner für"\n'.encode("cp1252"))
    with pytest.raises(InputError, match=r"line 2: the file is not UTF-8"):
        read_project(folder)


@pytest.mark.skipif(not RECORDINGS.is_dir(), reason="the annotated recordings are not here")
def test_annotated_recordings() -> None:
    folders = sorted(path.parent for path in RECORDINGS.glob("*/repair.toml"))
    assert folders
    for folder in folders:
        project = read_project(folder)
        assert project.title
        assert project.specs
