"""Chapters in open formats: the same chapters in each, and whatever a title holds, a file that its readers take."""

import json
import re
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest

from witnessmark.procedure.model import Chapter, Procedure
from witnessmark.publication.chapters import chapter_spans
from witnessmark.publication.chapters_ffmeta import chapters_ffmeta, escaped
from witnessmark.publication.chapters_json import chapters_json
from witnessmark.publication.chapters_txt import chapters_txt
from witnessmark.publication.chapters_vtt import chapters_vtt
from witnessmark.publication.chapters_xml import chapters_xml
from witnessmark.publication.guide_html import guide_html
from witnessmark.transcript import parse_transcript

HOSTILE = 'a=b; c#d\\e\nf <script>alert(1)</script> --> & "x" \u202e\ufffe'
TITLES = ("Bracket", "Drain plug", "End")
STARTS = (0, 40_000, 60_000)


def procedure(*chapters: Chapter) -> Procedure:
    return Procedure((), chapters, (), ())


@pytest.fixture
def end(manuscript) -> int:
    return round(manuscript().examination.reading.speech.transcript.duration * 1000)


def test_each_chapter_ends_where_the_next_begins(manuscript, end):
    spans = chapter_spans(manuscript())
    assert [(span.start, span.end) for span in spans] == [(0, 40_000), (40_000, 60_000), (60_000, end)]


def test_a_track_of_chapters(manuscript):
    found = parse_transcript(chapters_vtt(manuscript()).encode(), "chapters.vtt")
    assert [(round(cue.start * 1000), cue.text) for cue in found.cues] == list(zip(STARTS, TITLES, strict=True))


def test_chapters_for_ffmpeg(manuscript, end):
    text = chapters_ffmeta(manuscript())
    assert text.startswith(";FFMETADATA1\ntitle=Bracket & <plug>\n[CHAPTER]\nTIMEBASE=1/1000\nSTART=0\nEND=40000\n")
    assert text.endswith(f"START=60000\nEND={end}\ntitle=End\n")


def test_what_ffmpeg_would_read_as_its_own_is_escaped():
    assert escaped("a=b;c#d\\e\nf") == "a\\=b\\;c\\#d\\\\e\\\nf"


def test_chapters_for_matroska(manuscript):
    root = ET.fromstring(chapters_xml(manuscript()).split("\n", 2)[2])
    atoms = root.findall("EditionEntry/ChapterAtom")
    assert [atom.findtext("ChapterDisplay/ChapterString") for atom in atoms] == list(TITLES)
    assert atoms[1].findtext("ChapterTimeStart") == "00:00:40.000000000"
    uids = [atom.findtext("ChapterUID") for atom in atoms]
    assert len(set(uids)) == 3 and all(0 < int(uid) < 2**64 for uid in uids)


def test_a_number_of_matroska_follows_from_its_content(manuscript):
    changed = procedure(Chapter(0.0, "Bracket"), Chapter(40.0, "Plug"), Chapter(60.0, "End"))
    one, other = (
        re.findall("<ChapterUID>([0-9]+)", chapters_xml(each)) for each in (manuscript(), manuscript(procedure=changed))
    )
    assert (one[0], one[2]) == (other[0], other[2]) and one[1] != other[1]


def test_clips_in_the_guide(manuscript):
    page = guide_html(manuscript())
    data = json.loads(re.search(r'<script type="application/ld\+json">(.*?)</script>', page, re.S)[1])
    clips = data["video"]["hasPart"]
    assert data["video"]["@type"] == "VideoObject" and {clip["@type"] for clip in clips} == {"Clip"}
    assert [(clip["name"], clip["startOffset"]) for clip in clips] == [
        ("Bracket", 0.0),
        ("Drain plug", 40.0),
        ("End", 60.0),
    ]
    assert all(clip["endOffset"] == after["startOffset"] for clip, after in pairwise(clips))
    assert not {"url", "contentUrl", "embedUrl", "thumbnailUrl"} & {
        *data["video"],
        *(key for clip in clips for key in clip),
    }


@pytest.mark.parametrize("chapters", [(), (Chapter(0.0, "All"),), (Chapter(0.0, "One"), Chapter(30.0, "Two"))])
def test_few_chapters_are_no_list_to_paste_and_still_chapters(manuscript, chapters, end):
    made = manuscript(procedure=procedure(*chapters))
    titles = [each.title for each in chapters] or ["Bracket & <plug>"]
    assert chapters_txt(made) == ""
    assert [each["title"] for each in json.loads(chapters_json(made))["chapters"]] == titles
    assert chapter_spans(made)[-1].end == end
    assert chapters_xml(made).count("<ChapterAtom>") == chapters_ffmeta(made).count("[CHAPTER]") == len(titles)


def test_hostile_titles_stay_titles(manuscript):
    made = manuscript(procedure=procedure(*(Chapter(start, f"{HOSTILE} {start}") for start in (0.0, 30.0, 50.0))))
    titles = [span.title for span in chapter_spans(made)]
    assert all(title.startswith("a=b; c#d\\e f <script>") and "\u202e" not in title for title in titles)
    assert [cue.text for cue in parse_transcript(chapters_vtt(made).encode(), "x.vtt").cues] == titles
    assert [each["title"] for each in json.loads(chapters_json(made))["chapters"]] == titles
    atoms = ET.fromstring(chapters_xml(made).split("\n", 2)[2]).iter("ChapterString")
    assert [atom.text for atom in atoms] == [title.replace("\ufffe", "") for title in titles]
    assert len(chapters_ffmeta(made).splitlines()) == 2 + 3 * 5
    assert "<script>alert" not in guide_html(made)
