"""Every hostile text of payloads.toml, put wherever a project takes a text: in no file and on no terminal does it do anything."""

import csv
import json
import re
import sys
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from defusedxml import ElementTree
from markdown_it import MarkdownIt

from hostile import PAYLOADS, hostile_project
from witnessmark.cli import _run
from witnessmark.errors import InputError
from witnessmark.examination import examine
from witnessmark.procedure.model import Chapter
from witnessmark.project import read_project
from witnessmark.publication.build import WRITERS, build

TEXTS = [name for name, _ in WRITERS]
UNSEEN = re.compile(
    "[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff\U000e0000-\U000e007f]"
)
TIMES = re.compile(r"(\d\d:\d\d:\d\d)[.,]\d{3} --> (\d\d:\d\d:\d\d)[.,]\d{3}")
FETCHING = {"src", "href", "data", "action", "formaction", "poster", "srcset", "background", "xlink:href", "ping"}
ACTIVE = {"iframe", "object", "embed", "form", "base", "link", "svg", "math", "template", "audio", "video"}


@pytest.fixture(scope="module", params=[*PAYLOADS, "all"])
def out(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with every text that is built of one hostile project; "all": of all payloads in one text."""
    text = " ".join(PAYLOADS.values()) if request.param == "all" else PAYLOADS[request.param]
    folder = hostile_project(tmp_path_factory.mktemp("hostile"), text)
    examination = examine(folder)
    marks = tuple(Chapter(15.0 * n, f"{text} {n}") for n in range(3))
    examination = replace(examination, procedure=replace(examination.procedure, chapters=marks))
    assert examination.findings, "the texts reach no finding"
    build(examination, folder / "out", TEXTS)
    return folder / "out"


def test_no_text_holds_what_nobody_sees_or_what_a_template_would_make(out: Path) -> None:
    assert sorted(path.name for path in out.iterdir() if not path.name.startswith(".")) == sorted(TEXTS)
    for name in TEXTS:
        text = (out / name).read_text(encoding="utf-8")
        assert not UNSEEN.findall(text), name
        assert "50337" not in text, name


class Page(HTMLParser):
    """What of a page could act: elements, handlers, addresses, scripts."""

    def __init__(self) -> None:
        super().__init__()
        self.wrong: list[str] = []
        self.blocks: list[str] = []
        self.policy = ""
        self.in_script = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.in_script = tag == "script"
        if tag in ACTIVE or (tag == "script" and given != {"type": "application/ld+json"}):
            self.wrong.append(tag)
        if tag == "meta" and "http-equiv" in given:
            self.policy += f"{given['http-equiv']}: {given['content']}"
        for name, value in given.items():
            kind = (value or "").partition(":")[0] if ":" in (value or "") else ""
            fetches = (
                name in FETCHING
                and not (value or "").startswith("#")
                and kind not in ("data", "https", "http", "mailto")
            )
            if name.startswith("on") or name in ("style", "srcdoc") or fetches or (kind == "data" and tag != "img"):
                self.wrong.append(f"{tag} {name}={value}")

    def handle_endtag(self, tag: str) -> None:
        self.in_script = False

    def handle_data(self, data: str) -> None:
        if self.in_script:
            self.blocks.append(data)


def test_the_page_has_nothing_that_acts(out: Path) -> None:
    page = Page()
    page.feed((out / "guide.html").read_text(encoding="utf-8"))
    page.close()
    assert page.wrong == []
    assert page.policy == "Content-Security-Policy: default-src 'none'; style-src 'unsafe-inline'; img-src data:"
    (block,) = page.blocks
    assert json.loads(block)["@type"] == "HowTo"


def test_markdown_has_no_html_and_no_addresses(out: Path) -> None:
    reader = MarkdownIt("commonmark", {"linkify": False}).enable(["table", "strikethrough"])
    for name in (name for name in TEXTS if name.endswith(".md")):
        text = (out / name).read_text(encoding="utf-8")
        front, body = re.match(r"(?s)(---\n.*?\n---\n)?(.*)", text).groups()  # type: ignore[union-attr]
        for line in (front or "").splitlines()[1:-1]:
            assert isinstance(json.loads(line.partition(": ")[2]), str), line
        tokens = [each for token in reader.parse(body) for each in (token, *(token.children or ()))]
        kinds = {token.type for token in tokens}
        assert not kinds & {"html_block", "html_inline", "link_open", "image", "s_open", "fence", "code_block"}, name


def test_no_cell_is_a_formula(out: Path) -> None:
    for name in (name for name in TEXTS if name.endswith(".csv")):
        with (out / name).open(encoding="utf-8", newline="") as file:
            rows = list(csv.reader(file))
        assert {len(row) for row in rows} == {len(rows[0])}
        assert [cell for row in rows for cell in row if re.match(r"\s*[=+\-@＝＋－＠]", cell)] == []


def test_timed_text_has_no_times_but_its_own(out: Path) -> None:
    for name in (name for name in TEXTS if name.endswith((".vtt", ".srt"))):
        lines = (out / name).read_text(encoding="utf-8").splitlines()
        wrong = [line for line in lines if "-->" in line and not TIMES.fullmatch(line)]
        assert wrong == [], name
        after = [line for before, line in zip(["", *lines], lines, strict=False) if not before]
        assert not [line for line in after if line.startswith(("NOTE", "STYLE", "REGION"))], name
        tags = [line for line in lines if re.search(r"<[/A-Za-z0-9]", line)]
        assert tags == [], name


def test_json_xml_and_metadata_hold_their_own_form(out: Path) -> None:
    for name in ("facts.json", "chapters.json"):
        assert isinstance(json.loads((out / name).read_text(encoding="utf-8")), dict)
    root = ElementTree.parse(out / "chapters.xml").getroot()
    allowed = {"Chapters", "EditionEntry", "EditionUID", "ChapterAtom", "ChapterUID", "ChapterTimeStart"}
    allowed |= {"ChapterTimeEnd", "ChapterDisplay", "ChapterString", "ChapterLanguage", "ChapLanguageIETF"}
    assert {each.tag for each in root.iter()} <= allowed
    marks = len(list(root.iter("ChapterAtom")))
    lines = (out / "chapters.ffmeta").read_text(encoding="utf-8").splitlines()
    assert lines.count("[CHAPTER]") == marks and len(lines) == 2 + 5 * marks
    assert len((out / "chapters.txt").read_text(encoding="utf-8").splitlines()) == marks


def test_the_description_has_no_address_but_what_was_given(out: Path) -> None:
    text = (out / "description.txt").read_text(encoding="utf-8")
    assert "<" not in text and ">" not in text
    lines = (line for line in text.splitlines() if line.startswith("- ") or line)
    assert not [line for line in lines if re.match(r"(- [^:]*: )?(javascript|data|file|vbscript):", line)]


@pytest.mark.parametrize("what", PAYLOADS)
def test_a_terminal_is_not_steered(what: str, tmp_path: Path, capsys: Any) -> None:
    folder = hostile_project(tmp_path, PAYLOADS[what])
    for command in (["proof"], ["build", "--only", "kit.md"], ["settle", PAYLOADS[what].replace("\0", "")]):
        _run([command[0], str(folder), *command[1:]])
        told = capsys.readouterr()
        assert not UNSEEN.findall((told.out + told.err).replace("\n", "")), command
    for name, text in (("specs.csv", f"item,property\n{PAYLOADS[what]},x\n"), ("repair.toml", PAYLOADS[what])):
        (folder / name).write_text(text, encoding="utf-8")
        assert _run(["proof", str(folder)]) == 2
        told = capsys.readouterr()
        assert not UNSEEN.findall(told.err.replace("\n", "")) and told.err.count("\n") == 1


@pytest.mark.parametrize("what", PAYLOADS)
def test_as_an_address_it_is_words_or_refused(what: str, tmp_path: Path) -> None:
    folder = hostile_project(tmp_path, "pads")
    from hostile import toml

    settings = (folder / "repair.toml").read_text(encoding="utf-8").partition("[links]")[0]
    (folder / "repair.toml").write_text(f"{settings}[links]\n'pads' = {toml(PAYLOADS[what])}\n", encoding="utf-8")
    try:
        ((_, where),) = read_project(folder).links
    except InputError as why:
        assert "\n" not in str(why)
        return
    assert not re.match(r"\s*(javascript|data|vbscript|file)\s*:", re.sub(r"[\x00-\x1f\u200b-\u200f]", "", where), re.I)


def test_pictures_paper_and_timelines_are_made_of_it_too(tmp_path: Path) -> None:
    pytest.importorskip("weasyprint")
    pytest.importorskip("opentimelineio")
    pytest.importorskip("av")
    folder = hostile_project(tmp_path / "hostile", " ".join(PAYLOADS.values()))
    notes: list[str] = []
    build(examine(folder), folder / "out", note=notes.append)
    assert notes == []
    pdf = (folder / "out" / "guide.pdf").read_bytes()
    assert not re.search(rb"/(JavaScript|JS|Launch|EmbeddedFile|OpenAction|SubmitForm)\b", pdf)
    for name in ("corrections.otio", "corrections.edl"):
        text = (folder / "out" / name).read_text(encoding="utf-8").replace("\r\n", "\n").replace("\t", " ")
        assert not UNSEEN.findall(text), name
    assert sys.getsizeof(json.loads((folder / "out" / "corrections.otio").read_text(encoding="utf-8")))
