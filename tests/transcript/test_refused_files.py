"""Files that are not captions are refused in one line that says where and what to do."""

import codecs
import os
from pathlib import Path

import pytest

from witnessmark.errors import InputError
from witnessmark.size_limit import LARGEST
from witnessmark.transcript import parse_transcript, read_transcript

REFUSED = {
    "empty": (b"", "is empty"),
    "white space": (b" \r\n\t\n" + b"\n" * 1000, "is empty"),
    "only a byte order mark": (codecs.BOM_UTF8, "is empty"),
    "prose": (b"Dear viewer,\n\nthank you for watching at 4:07 today.\n", "not captions in a known form"),
    "a time in round brackets": (b"(4:07) undo the plug\n", "not captions in a known form"),
    "JSON": (b'{"events": [1, 2, 3]}', "not captions in a known form"),
    "other XML": (b"<html><body><p>no</p></body></html>", "not captions in a known form"),
    "no signature": (b"00:00:00.000 --> 00:00:01.000\nundo it\n", "does not begin with WEBVTT"),
    "WebVTT without cues": (b"WEBVTT\n\nNOTE nothing\n", "holds no spoken words"),
    "WebVTT, sounds only": (b"WEBVTT\n\n00:00.000 --> 00:01.000\n[Music]\n", "holds no spoken words"),
    "WebVTT, no cue readable": (b"WEBVTT\n\n00:00,000 --> 00:01,000\nundo it\n", "line 3"),
    "broken XML": (
        b'<tt xmlns="http://www.w3.org/ns/ttml">\n<body><p begin="1s">undo</body></tt>',
        "line 2: XML is not well",
    ),
    "XML entities": (
        b'<!DOCTYPE tt [<!ENTITY a "b">]><tt><body><p begin="1s">&a;</p></body></tt>',
        "declares entities",
    ),
    "TTML, bad frame rate": (b'<tt frameRate="0"><body><p begin="1s">undo</p></body></tt>', "frameRate"),
    "PNG": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "a PNG picture"),
    "ZIP": (b"PK\x03\x04" + bytes(100), "a ZIP archive"),
    "MP4": (b"\x00\x00\x00\x18ftypmp42", "an MP4 video"),
    "zeros": (bytes(1000), "a binary file"),
    "noise": (bytes((index * 7919 + index // 256) % 256 for index in range(10_000)), "a binary file"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refused_in_one_line(name: str) -> None:
    data, problem = REFUSED[name]
    with pytest.raises(InputError) as error:
        parse_transcript(data, "captions.vtt")
    assert error.value.where == "captions.vtt"
    assert problem in str(error.value)
    assert error.value.remedy
    assert "\n" not in str(error.value)


def test_missing_file_and_folder(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_transcript(tmp_path / "missing.vtt")
    with pytest.raises(InputError, match="not a file"):
        read_transcript(tmp_path)


def test_too_large_is_refused_by_its_size(tmp_path: Path) -> None:
    path = tmp_path / "captions.vtt"
    with path.open("wb") as file:
        os.truncate(file.fileno(), 200_000_000)
    with pytest.raises(InputError, match=r"200 MB is too large for captions \(at most 20 MB\)"):
        read_transcript(path)


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the superuser can read every file")
def test_unreadable_file(tmp_path: Path) -> None:
    path = tmp_path / "captions.vtt"
    path.write_text("WEBVTT\n")
    path.chmod(0)
    with pytest.raises(InputError, match="cannot be read"):
        read_transcript(path)


HOSTILE = {
    "many <": "WEBVTT\n\n00:00.000 --> 00:01.000\nundo " + "<" * 200_000,
    "many < in SubRip": "1\n00:00:00,000 --> 00:00:01,000\nundo " + "<a" * 100_000,
    "many &": "WEBVTT\n\n00:00.000 --> 00:01.000\nundo " + "&" * 200_000,
    "a reference of many digits": "WEBVTT\n\n00:00.000 --> 00:01.000\nundo &#" + "1" * 5000 + ";",
    "many [": "0:01\nundo " + "[" * 200_000,
    "many (": "0:01\nundo " + "(" * 200_000,
    "many dashes": "0:01\nundo " + "- " * 100_000,
    "many >>": "0:01\nundo " + ">" * 200_000,
    "many {": "0:01\nundo " + "{\\" * 100_000,
    "many blanks": "0:01\n" + " " * 200_000 + "undo",
    "an hour of many digits": "WEBVTT\n\n00:00.000 --> 00:01.000\nundo\n\n"
    + "1" * 5000
    + ":00:00.000 --> 00:01.000\nx",
    "many arrows": "WEBVTT\n\n00:00.000 --> 00:01.000\nundo\n" + "-->" * 100_000,
    "one long line": "1\n00:00:00,000 --> 00:00:01,000\nundo" + "o" * (LARGEST // 20),
    "deep XML": '<tt><body><p begin="1s">undo' + "<span>a" * 20_000 + "</span>" * 20_000 + "</p></body></tt>",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_text_is_read_or_refused(name: str) -> None:
    """Nothing here may hang or end in another error: each pattern is bounded or looks at a character once."""
    found = parse_transcript(HOSTILE[name].encode(), "captions")
    assert found.words[0].text.startswith("undo")
