"""When each word is spoken, where the captions say so and where they do not. All text is invented."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from witnessmark.transcript import parse_transcript, read_transcript

RECORDINGS = Path(__file__).parents[3] / "shared" / "recordings"
needs_recordings = pytest.mark.skipif(not RECORDINGS.is_dir(), reason="the annotated recordings are not here")


def times(text: str) -> list[tuple[str, float, float]]:
    return [(word.text, word.start, word.end) for word in parse_transcript(text.encode(), "captions").words]


def test_words_share_their_caption_by_syllables() -> None:
    caption = "WEBVTT\n\n00:10.000 --> 00:12.000\ntighten the alternator bolt"
    assert times(caption) == [
        ("tighten", 10.0, 10.5),
        ("the", 10.5, 10.75),
        ("alternator", 10.75, 11.75),
        ("bolt", 11.75, 12.0),
    ]


def test_times_inside_a_caption_are_kept_exactly() -> None:
    caption = "WEBVTT\n\n00:10.000 --> 00:13.000\nun<00:10.100>do<00:10.500> the<00:11.000> drain plug"
    assert times(caption) == [("undo", 10.0, 10.5), ("the", 10.5, 11.0), ("drain", 11.0, 11.6), ("plug", 11.6, 12.2)]


def test_a_time_outside_its_caption_is_not_used() -> None:
    caption = "WEBVTT\n\n00:10.000 --> 00:11.000\nundo <00:09.000>it <00:15.000>now"
    assert times(caption) == [("undo", 10.0, 10.5), ("it", 10.5, 10.75), ("now", 10.75, 11.0)]


def test_silence_does_not_stretch_words() -> None:
    assert times("0:00\nundo it\n5:00\nthere\n") == [("undo", 0.0, 1.2), ("it", 1.2, 1.8), ("there", 300.0, 300.6)]


def test_captions_with_the_same_stamp_are_spoken_one_after_the_other() -> None:
    assert times("0:04\nundo\n0:04\nit all\n0:06\nnow\n")[:3] == [
        ("undo", 4.0, 5.0),
        ("it", 5.0, 5.5),
        ("all", 5.5, 6.0),
    ]


def test_a_caption_that_stays_while_the_next_is_spoken() -> None:
    caption = "WEBVTT\n\n00:00.000 --> 00:04.000\nundo it\n\n00:01.500 --> 00:05.000\nthen lift it"
    assert times(caption)[1] == ("it", 1.0, 1.5)
    assert parse_transcript(caption.encode(), "x").cues[0].end == 4.0


def test_given_times_hold_where_captions_overlap() -> None:
    caption = "WEBVTT\n\n00:00.000 --> 00:04.000\nundo<00:03.000> it\n\n00:02.000 --> 00:05.000\nthen"
    assert times(caption)[1][:2] == ("it", 3.0)


def test_two_who_really_speak_at_once_keep_their_times() -> None:
    caption = "WEBVTT\n\n00:00.000 --> 00:02.000\nundo the alternator\n\n00:00.200 --> 00:01.000\nyes yes"
    assert times(caption)[2][2] == 2.0


def test_the_last_block_runs_at_the_median_rate() -> None:
    assert times("[0:00] one two four five\n[0:02] one two four five\n[0:04] one two")[-1] == ("two", 4.5, 5.0)


MARK = re.compile(r"\[\[.*?\|(.*?)\]\]")


def spoken_in(script: Path) -> list[str]:
    """Words of a recording's script without its marks, headings and pauses."""
    lines = [line.strip() for line in script.read_text(encoding="utf-8").splitlines()]
    said = [line for line in lines if not line.startswith(("#", "== ", "> ")) and not re.match(r"\(pause ", line)]
    return MARK.sub(r"\1", " ".join(said)).split()


@needs_recordings
@pytest.mark.parametrize("name", ["bottom_bracket", "rear_shocks", "washer_pump"])
def test_every_word_of_a_recording_once(name: str) -> None:
    found = read_transcript(next((RECORDINGS / name).glob("captions.*")))
    assert [word.text for word in found.words] == spoken_in(RECORDINGS / name / "script.txt")
    assert not found.notes
    assert all(one.start <= other.start for one, other in zip(found.words, found.words[1:], strict=False))


def rendered(name: str, form: str, folder: Path) -> Path:
    """The recording of that name as captions of another form."""
    case = folder / form
    shutil.copytree(RECORDINGS / name, case, ignore=shutil.ignore_patterns("captions.*"))
    script = case / "script.txt"
    script.write_text(
        re.sub(r"(?m)^# form: .*$", f"# form: {form}", script.read_text(encoding="utf-8")), encoding="utf-8"
    )
    subprocess.run([sys.executable, str(RECORDINGS / "compile.py"), str(case)], check=True, capture_output=True)
    return case


@needs_recordings
@pytest.mark.parametrize(
    ("form", "within", "share"), [("vtt", 1.0, 1.0), ("srt", 1.0, 1.0), ("stamped", 2.0, 1.0), ("bracket", 3.0, 0.98)]
)
@pytest.mark.parametrize("name", ["bottom_bracket", "rear_shocks", "washer_pump"])
def test_shared_out_times_against_word_times(name: str, form: str, within: float, share: float, tmp_path: Path) -> None:
    """Truth: the same narration as roll-up captions, which give the start of each word."""
    truth = read_transcript(rendered(name, "auto-vtt", tmp_path) / "captions.vtt").words
    found = read_transcript(next(rendered(name, form, tmp_path).glob("captions.*"))).words
    assert [word.text for word in found] == [word.text for word in truth]
    near = [abs(one.start - other.start) <= within for one, other in zip(found, truth, strict=True)]
    assert sum(near) >= share * len(near)


@needs_recordings
@pytest.mark.parametrize("name", ["rear_shocks", "washer_pump"])
def test_word_times_agree_with_the_annotation(name: str) -> None:
    found = read_transcript(RECORDINGS / name / "captions.vtt").words
    chapters = json.loads((RECORDINGS / name / "gold.json").read_text(encoding="utf-8"))["chapters"]
    assert chapters
    for chapter in chapters:
        assert min(abs(word.start - chapter["t"]) for word in found) <= 0.006  # the annotation has hundredths
