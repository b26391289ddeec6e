"""Times of captions against outside sources.

pysubs2 (1.8, MIT licence; used only here, never by the package): a general reader of subtitle files, independent of
ours, must find the same times in the same WebVTT and SubRip files.
SubRip: the worked duration of the Matroska codec specification (cellar-codec/subtitles.md, commit 6d707bb).
TTML2: the forms of time expressions in its <time-expression> section (w3c/ttml2 commit 2f57a97).
IMSC1: the worked frame number in w3c/imsc (imsc1/spec/ttml-ww-profiles.html, commit 88ac51d).
"""

from fractions import Fraction
from math import ceil
from pathlib import Path

import pysubs2
import pytest

from witnessmark.transcript import parse_transcript, subrip, webvtt
from witnessmark.transcript.encoding import decode
from witnessmark.transcript.ttml_time import TimeBase, time_base

SHARED = Path(__file__).parents[3] / "shared"
VTT_FILES = [*sorted(SHARED.glob("recordings/*/captions.vtt"))]
SRT = "\n".join(
    f"{n}\n00:{n:02}:{second:02},{n * 37:03} --> 00:{n:02}:{second:02},{n * 37 + 1:03}\nturn {n}\n"
    for n, second in enumerate(range(3, 55, 2), start=1)
)


@pytest.mark.parametrize("path", VTT_FILES, ids=lambda path: path.parent.name)
def test_webvtt_times_agree_with_pysubs2(path: Path) -> None:
    text, _ = decode(path.read_bytes(), path.name)
    ours = [(round(cue.start * 1000), round(cue.end * 1000)) for cue in webvtt.read(text).cues]
    theirs = pysubs2.SSAFile.from_string(text, format_="vtt")
    assert len(ours) > 100
    assert ours == [(event.start, event.end) for event in theirs]


def test_subrip_times_agree_with_pysubs2() -> None:
    ours = [(round(cue.start * 1000), round((cue.end or 0) * 1000), cue.text) for cue in subrip.read(SRT).cues]
    theirs = pysubs2.SSAFile.from_string(SRT, format_="srt")
    assert len(ours) == 26
    assert ours == [(event.start, event.end, event.plaintext) for event in theirs]


def test_subrip_duration_worked_in_the_matroska_specification() -> None:
    """From 00:02:17,440 to 00:02:20,375 is 00:00:02,935."""
    cue = parse_transcript(b"1\n00:02:17,440 --> 00:02:20,375\nundo the plug\n", "x.srt").cues[0]
    assert round((cue.end - cue.start) * 1000) == 2935


@pytest.mark.parametrize(
    ("expression", "seconds"),
    [
        ("00:00:05", 5.0),
        ("01:02:03.25", 3723.25),
        ("100:00:00", 360_000.0),
        ("00:00:01:15", 1.5),
        ("00:00:01:15.1", 1.5 + 1 / 60),
        ("1.5h", 5400.0),
        ("12m", 720.0),
        ("12ms", 0.012),
        ("7.5s", 7.5),
        ("45f", 1.5),
        ("90000t", 9.0),
    ],
)
def test_ttml_time_expressions(expression: str, seconds: float) -> None:
    """At 30 frames of 2 parts a second and 10000 ticks a second."""
    base = time_base({"frameRate": "30", "subFrameRate": "2", "tickRate": "10000"})
    assert base.seconds(expression) == pytest.approx(seconds, abs=1e-9)


@pytest.mark.parametrize("expression", ["", "5", "5 s", "0:00:05", "00:05", "00:00:05,5", "5sec", "-1s", "1e3s"])
def test_what_is_no_ttml_time_expression(expression: str) -> None:
    with pytest.raises(ValueError, match="no TTML time"):
        TimeBase().seconds(expression)


def test_imsc_frame_of_a_time() -> None:
    """At 30000/1001 frames a second, the first frame at or after 00:00:05.1 is frame 153."""
    base = time_base({"frameRate": "30", "frameRateMultiplier": "1000 1001"})
    moment = base.seconds("00:00:05.1")
    assert ceil(Fraction(moment) * Fraction(30000, 1001)) == 153
    assert base.seconds("152f") < moment <= base.seconds("153f")


def test_ttml_defaults_of_rates() -> None:
    """Ticks without a tickRate: one a second, or as many as frames where a frameRate is given."""
    assert time_base({}).seconds("3t") == 3.0
    assert time_base({"frameRate": "25"}).seconds("50t") == 2.0


def test_drop_frame_hour() -> None:
    """SMPTE drop-frame time keeps to the clock within 4 ms an hour (SMPTE ST 12-1, *from memory*)."""
    base = time_base(
        {"frameRate": "30", "frameRateMultiplier": "1000 1001", "timeBase": "smpte", "dropMode": "dropNTSC"}
    )
    assert base.seconds("01:00:00:00") == pytest.approx(3600.0, abs=0.004)
