"""Chapter files against the programs that take them.

FFmpeg (ffprobe reads chapters.ffmeta; `Metadata` in its documentation of formats). MKVToolNix (mkvmerge muxes
chapters.xml, mkvextract gives it back). JSON Chapters Format 1.2 of the Podcast Namespace: json_chapters.schema.json
beside this file, written from its specification *from memory*. Each is left out where the program is absent.
"""

import json
import shutil
import subprocess
from pathlib import Path
from xml.etree import ElementTree as ET

import jsonschema
import pytest

from witnessmark.publication.chapters import chapter_spans
from witnessmark.publication.chapters_ffmeta import chapters_ffmeta
from witnessmark.publication.chapters_json import chapters_json
from witnessmark.publication.chapters_xml import chapters_xml
from witnessmark.publication.manuscript import Manuscript

PATIENCE = 120
"""Seconds after which an outside program is given up."""


def needs(*programs: str) -> pytest.MarkDecorator:
    absent = [program for program in programs if shutil.which(program) is None]
    return pytest.mark.skipif(bool(absent), reason=f"{', '.join(absent)} is not installed")


def run(*command: str | Path) -> str:
    ran = subprocess.run([str(part) for part in command], capture_output=True, text=True, timeout=PATIENCE, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return ran.stdout


@needs("ffprobe")
def test_ffprobe_sees_title_and_chapters(published: Manuscript, tmp_path: Path) -> None:
    path = tmp_path / "chapters.ffmeta"
    path.write_text(chapters_ffmeta(published), encoding="utf-8", newline="\n")
    shown = json.loads(
        run("ffprobe", "-v", "error", "-f", "ffmetadata", "-show_chapters", "-show_format", "-of", "json", path)
    )
    found = [
        (round(float(each["start_time"]) * 1000), round(float(each["end_time"]) * 1000), each["tags"]["title"])
        for each in shown["chapters"]
    ]
    assert found == [(span.start, span.end, span.title) for span in chapter_spans(published)]
    assert shown["format"]["tags"]["title"] == published.examination.project.title


@needs("mkvmerge", "mkvextract")
def test_matroska_takes_the_chapters_and_gives_them_back(published: Manuscript, tmp_path: Path) -> None:
    chapters, subtitles, video = tmp_path / "chapters.xml", tmp_path / "a.srt", tmp_path / "a.mkv"
    chapters.write_text(chapters_xml(published), encoding="utf-8", newline="\n")
    subtitles.write_text("1\n00:00:00,000 --> 00:10:00,000\nundo\n", encoding="utf-8")
    printed = run("mkvmerge", "-o", video, "--chapters", chapters, subtitles)
    assert "Warning" not in printed
    run("mkvextract", video, "chapters", tmp_path / "back.xml")
    given, back = (ET.parse(path).getroot() for path in (chapters, tmp_path / "back.xml"))
    for tag in (
        "ChapterUID",
        "ChapterTimeStart",
        "ChapterTimeEnd",
        "ChapterString",
        "ChapterLanguage",
        "ChapLanguageIETF",
    ):
        assert [each.text for each in back.iter(tag)] == [each.text for each in given.iter(tag)], tag


def test_json_chapters_fit_the_schema(published: Manuscript) -> None:
    schema = json.loads((Path(__file__).parent / "json_chapters.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(json.loads(chapters_json(published)))
