"""The copy of a video with its chapters, as ffprobe (https://ffmpeg.org/ffprobe.html) and mkvinfo's kin see it."""

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("av")
sys.path.insert(0, str(Path(__file__).parents[2] / "benchmarks"))

from draw_video import Moment, draw_video
from witnessmark.publication.chapters import ChapterSpan
from witnessmark.publication.remux import remux

MARKS = [ChapterSpan(0, 2500, "Before you start"), ChapterSpan(2500, 6000, "Zoë’s wheel & axle")]
needs_ffprobe = pytest.mark.skipif(shutil.which("ffprobe") is None, reason="ffprobe is not installed")


def probed(path: Path) -> dict:
    command = [
        "ffprobe",
        "-v",
        "error",
        "-print_format",
        "json",
        "-show_chapters",
        "-show_streams",
        "-show_format",
        str(path),
    ]
    return json.loads(subprocess.run(command, capture_output=True, check=True, text=True).stdout)


def packets(path: Path) -> list[str]:
    """A checksum of each packet of picture and sound, which stays where nothing is encoded anew."""
    command = [
        "ffmpeg",
        "-v",
        "error",
        "-i",
        str(path),
        "-map",
        "0:v",
        "-map",
        "0:a?",
        "-c",
        "copy",
        "-f",
        "framehash",
        "-",
    ]
    lines = subprocess.run(command, capture_output=True, check=True, text=True).stdout.splitlines()
    return [line.rsplit(",", 1)[1] for line in lines if not line.startswith("#")]


@pytest.fixture(params=[".mp4", ".mkv", ".mov"])
def copied(request, tmp_path):
    source, target = tmp_path / f"video{request.param}", tmp_path / f"copy{request.param}"
    draw_video(source, [Moment(1.0, 4.0, "Fit the wheel.")], 6.0)
    remux(source, target, MARKS)
    return source, target


@needs_ffprobe
def test_ffprobe_sees_the_chapters(copied):
    chapters = probed(copied[1])["chapters"]
    told = [(float(each["start_time"]), float(each["end_time"]), each["tags"]["title"]) for each in chapters]
    assert told == [(mark.start / 1000, mark.end / 1000, mark.title) for mark in MARKS]


@needs_ffprobe
@pytest.mark.skipif(shutil.which("ffmpeg") is None, reason="ffmpeg is not installed")
def test_nothing_is_encoded_anew(copied):
    source, target = copied
    assert packets(source) == packets(target) and len(packets(source)) > 60
    before, after = probed(source), probed(target)
    kinds = [
        [each["codec_name"] for each in told["streams"] if each["codec_type"] in ("video", "audio")]
        for told in (before, after)
    ]
    assert kinds[0] == kinds[1] == ["mpeg4", "aac"]
    assert float(after["format"]["duration"]) == pytest.approx(float(before["format"]["duration"]), abs=0.1)


@needs_ffprobe
def test_a_turned_video_stays_turned(tmp_path):
    source, target = tmp_path / "video.mp4", tmp_path / "copy.mp4"
    draw_video(source, [], 2.0, sound=False, rotated=90)
    remux(source, target, [ChapterSpan(0, 1000, "One"), ChapterSpan(1000, 2000, "Two")])
    turned = [
        side["rotation"] for path in (source, target) for side in probed(path)["streams"][0].get("side_data_list", ())
    ]
    assert turned == [90, 90]


def test_the_copy_is_the_same_every_time(copied, tmp_path):
    source, target = copied
    again = tmp_path / f"again{target.suffix}"
    remux(source, again, MARKS)
    assert again.read_bytes() == target.read_bytes()
