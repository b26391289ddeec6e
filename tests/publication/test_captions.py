"""Corrected captions: read back, they have every word once, in the time it was captioned. All recordings are invented."""

from functools import cache
from itertools import pairwise
from pathlib import Path

import pysubs2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.examination import Examination, examine
from witnessmark.publication.caption_changes import UNIT, Change, caption_changes
from witnessmark.publication.caption_cues import caption_cues
from witnessmark.publication.captions_review_md import captions_review_md
from witnessmark.publication.captions_srt import captions_srt
from witnessmark.publication.captions_vtt import captions_vtt
from witnessmark.publication.manuscript import prepare
from witnessmark.publication.timed_text import TextCue, subrip, time_code, webvtt
from witnessmark.settling import settle
from witnessmark.transcript import Transcript, parse_transcript

ROOT = Path(__file__).parents[2]
RECORDINGS = sorted(
    path.parent
    for folder in (ROOT / "sample_projects", ROOT / "benchmarks" / "recordings", ROOT.parent / "shared" / "recordings")
    for path in folder.glob("*/repair.toml")
)
MOMENT = 0.0011


@cache
def examined(recording: Path) -> Examination:
    return examine(recording)


def written_words(transcript: Transcript, changes: tuple[Change, ...]) -> list[str]:
    """The words that captions with these changes must have, each once."""
    words, at = [], 0
    for change in changes:
        words += [word.text for word in transcript.words[at : change.first]]
        words += change.written.split()
        at = change.end
    return words + [word.text for word in transcript.words[at:]]


def check_read_back(transcript: Transcript, changes: tuple[Change, ...], cues: tuple[TextCue, ...]) -> None:
    for text in (webvtt(cues), subrip(cues)):
        back = parse_transcript(text.encode(), "captions.corrected")
        assert [word.text for word in back.words] == written_words(transcript, changes)
        assert not back.notes
    starts = {round(one.start, 3) for one in (*transcript.cues, *transcript.words)}
    assert all(min(abs(cue.start / 1000 - start) for start in starts) <= MOMENT for cue in cues)
    if not changes:
        back = parse_transcript(webvtt(cues).encode(), "captions.corrected")
        for word, again in zip(transcript.words, back.words, strict=True):
            cue = back.cues[again.cue]
            assert cue.start - MOMENT <= word.start and word.end <= cue.end + MOMENT, word


@pytest.mark.parametrize("recording", RECORDINGS, ids=lambda path: path.name)
def test_every_word_once_and_in_its_time(recording: Path) -> None:
    transcript = examined(recording).reading.speech.transcript
    changes = caption_changes(examined(recording)).made
    check_read_back(transcript, changes, caption_cues(transcript, changes))
    check_read_back(transcript, (), caption_cues(transcript, ()))


@pytest.mark.parametrize("recording", RECORDINGS, ids=lambda path: path.name)
def test_captions_can_be_read(recording: Path) -> None:
    transcript = examined(recording).reading.speech.transcript
    cues = caption_cues(transcript, caption_changes(examined(recording)).made)
    assert max(len(cue.lines) for cue in cues) <= 2
    assert max(len(line) for cue in cues for line in cue.lines) <= 42
    assert max(cue.end - cue.start for cue in cues) <= 7000
    assert all(cue.end <= after.start for cue, after in pairwise(cues))
    hurried = [cue for cue in cues if cue.end - cue.start < 1000]
    assert len(hurried) <= len(cues) // 100, hurried


@pytest.mark.parametrize("recording", RECORDINGS, ids=lambda path: path.name)
def test_pysubs2_reads_the_same(recording: Path) -> None:
    """pysubs2 (MIT licence): a reader of subtitle files that is independent of ours."""
    manuscript = prepare(examined(recording))
    transcript = manuscript.examination.reading.speech.transcript
    cues = caption_cues(transcript, caption_changes(manuscript.examination).made)
    for form, text in (("vtt", captions_vtt(manuscript)), ("srt", captions_srt(manuscript))):
        theirs = pysubs2.SSAFile.from_string(text, format_=form)
        assert [(each.start, each.end) for each in theirs] == [(cue.start, cue.end) for cue in cues]


def test_a_caption_keeps_its_time_to_the_millisecond() -> None:
    found = parse_transcript(b"WEBVTT\n\n00:01.234 --> 00:04.567\nundo the plug\n\n00:05.001 --> 00:07.002\nthen", "x")
    assert [(cue.start, cue.end) for cue in caption_cues(found, ())] == [(1234, 4567), (5001, 7002)]


def test_roll_up_captions_become_clean_ones() -> None:
    text = """WEBVTT

00:01.000 --> 00:03.000
 \nround<00:01.500><c> and</c><00:02.000><c> round</c>

00:03.000 --> 00:03.010
round and round


00:03.010 --> 00:05.000
round and round
then<00:03.700><c> off</c>

00:05.000 --> 00:05.010
then off

"""
    cues = caption_cues(parse_transcript(text.encode(), "x.vtt"), ())
    assert [cue.lines for cue in cues] == [("round and round",), ("then off",)]
    assert [(cue.start, cue.end) for cue in cues] == [(1000, 3000), (3010, 5000)]


def test_sounds_stay_and_the_dash_of_a_speaker_is_no_word() -> None:
    text = "WEBVTT\n\n00:01.000 --> 00:04.000\n[Music] tighten it\n- to ten\n\n00:05.000 --> 00:06.500\n[Applause]\n"
    cues = caption_cues(parse_transcript(text.encode(), "x.vtt"), ())
    assert [" ".join(cue.lines) for cue in cues] == ["[Music] tighten it >> to ten", "[Applause]"]


def test_markup_in_captions_is_text() -> None:
    text = "WEBVTT\n\n00:01.000 --> 00:04.000\nR&amp;D &lt;b&gt;bold&lt;/b&gt; --&gt; &amp;lt; 5\n"
    found = parse_transcript(text.encode(), "x.vtt")
    cues = caption_cues(found, ())
    assert "R&amp;D &lt;b&gt;bold&lt;/b&gt; --&gt; &amp;lt; 5" in webvtt(cues)
    assert "R&D &lt;b>bold&lt;/b> --&gt; &amp;lt; 5" in subrip(cues)
    check_read_back(found, (), cues)


def test_a_short_caption_stays_or_joins_its_neighbour() -> None:
    text = "WEBVTT\n\n00:01.000 --> 00:01.300\nundo\n\n00:01.300 --> 00:01.600\nit\n\n00:09.000 --> 00:09.200\nnow\n"
    cues = caption_cues(parse_transcript(text.encode(), "x.vtt"), ())
    assert [(cue.start, cue.end, cue.lines) for cue in cues] == [
        (1000, 2000, ("undo it",)),
        (9000, 10000, ("now",)),
    ]


word = st.text(st.sampled_from("abcxyzé&<>,.'°½-"), min_size=1, max_size=9).map(lambda text: "w" + text)
spoken = st.tuples(st.lists(word, min_size=1, max_size=40), st.integers(50, 20_000), st.integers(0, 3000))


@given(st.lists(spoken, min_size=1, max_size=8))
def test_any_captions_keep_their_words(captions: list[tuple[list[str], int, int]]) -> None:
    cues, at = [], 0
    for number, (words, length, pause) in enumerate(captions):
        cues.append(TextCue(at, at + length, (f"n{number}{chr(97 + number)} {' '.join(words)}",)))
        at += length + pause
    found = parse_transcript(webvtt(cues).encode(), "x.vtt")
    check_read_back(found, (), caption_cues(found, ()))


@pytest.mark.parametrize(
    ("at", "told"), [(0, "00:00:00.000"), (3_599_999, "00:59:59.999"), (360_000_001, "100:00:00.001")]
)
def test_time_codes(at: int, told: str) -> None:
    assert time_code(at) == told


# --- what is changed

CAPTIONS = """WEBVTT

00:00:01.000 --> 00:00:05.000
Break pads first. Take the break-pads' clip and the T20 bit, a five mil hex and a 10mm wrench.

00:00:20.000 --> 00:00:26.000
Fit the bracket bolts and tighten the bracket bolts to thirty-four newton meters.

00:00:40.000 --> 00:00:47.000
Then tighten the drain plug to 50 newton metres (37 foot-pounds), with a 17 mm socket.
"""
SPECS = """item,also_called,property,value,tool_size,source
bracket bolts,,torque,43 N·m,13 mm,Manual p. 4
drain plug,,torque,30 N·m,17 mm,Manual p. 9
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "captions.vtt").write_text(CAPTIONS, encoding="utf-8")
    (tmp_path / "specs.csv").write_text(SPECS, encoding="utf-8")
    text = 'title = "Brakes"\ncaptions = "captions.vtt"\nspecs = ["specs.csv"]\n[heard]\n"break pads" = "brake pads"\n'
    (tmp_path / "repair.toml").write_text(text, encoding="utf-8")
    return tmp_path


def changed(folder: Path) -> dict[str, str]:
    return {change.captioned: change.written for change in caption_changes(examine(folder)).made}


def finding_of(folder: Path, item: str) -> str:
    return next(each.id for each in examine(folder).findings if each.item == item and each.check == "value")


def test_what_heard_puts_right_keeps_its_capital_and_all_around_it(folder: Path) -> None:
    found = changed(folder)
    assert found["Break pads"] == "Brake pads"
    assert found["break-pads'"] == "brake pads'"


def test_units_by_house_style(folder: Path) -> None:
    found = changed(folder)
    assert found["thirty-four newton meters."] == "34 N·m."
    assert found["50 newton metres"] == "50 N·m"
    assert found["(37 foot-pounds),"] == "(37 lbf·ft),"
    assert found["five mil"] == "5 mm" and found["10mm"] == "10 mm"
    assert not any("T20" in each for each in found)


def test_a_word_that_may_be_several_units_stays(tmp_path: Path) -> None:
    text = "WEBVTT\n\n00:01.000 --> 00:06.000\nthe pads were down to six mil thick, and pour in ten mil of oil\n"
    (tmp_path / "c.vtt").write_text(text, encoding="utf-8")
    (tmp_path / "repair.toml").write_text('title = "Pads"\ncaptions = "c.vtt"\n', encoding="utf-8")
    assert changed(tmp_path) == {}


def test_an_open_finding_changes_nothing(folder: Path) -> None:
    assert "43" not in " ".join(changed(folder).values())


def test_the_value_that_counts_is_written_once_it_is_settled(folder: Path) -> None:
    settle(folder, finding_of(folder, "bracket bolts"), "manual", "card cut in")
    assert changed(folder)["thirty-four newton meters."] == "43 N·m."
    review = captions_review_md(prepare(examine(folder)))
    row = next(line for line in review.splitlines() if "43 N·m" in line)
    assert row.startswith("| 0:2") and "thirty-four newton meters." in row and "card cut in" in row


def test_another_value_is_written_and_a_kept_one_is_not(folder: Path) -> None:
    settle(folder, finding_of(folder, "bracket bolts"), "value", value="44 N·m")
    settle(folder, finding_of(folder, "drain plug"), "keep", "new plug")
    found = changed(folder)
    assert found["thirty-four newton meters."] == "44 N·m."
    assert found["50 newton metres"] == "50 N·m"


def test_a_doubtful_word_is_written_otherwise_only_once_it_is_settled(tmp_path: Path) -> None:
    """`misheard` in benchmarks: "jack stance" for "jack stands"."""
    (tmp_path / "c.vtt").write_text(
        "WEBVTT\n\n00:01.000 --> 00:04.000\nlower the car onto the jack stance and chock the wheels\n", encoding="utf-8"
    )
    (tmp_path / "repair.toml").write_text('title = "Lift"\ncaptions = "c.vtt"\n', encoding="utf-8")
    finding = next(each for each in examine(tmp_path).findings if each.check == "misheard")
    assert changed(tmp_path) == {}
    assert finding.id in captions_review_md(prepare(examine(tmp_path)))
    settle(tmp_path, finding.id, "value", value="jack stands")
    assert changed(tmp_path) == {"jack stance": "jack stands"}


def test_what_heard_says_is_left_where_a_decision_keeps_it(folder: Path) -> None:
    first = next(each for each in examine(folder).findings if each.check == "misheard")
    settle(folder, first.id, "keep", "a pun")
    assert "Break pads" not in changed(folder)


def test_changes_of_units_are_told_apart_in_the_review(folder: Path) -> None:
    text = captions_review_md(prepare(examine(folder)))
    assert text.index("## Words and values") < text.index("Brake pads") < text.index("## Units") < text.index(UNIT)


def test_nothing_to_change_is_said(tmp_path: Path) -> None:
    (tmp_path / "c.srt").write_text("1\n00:00:01,000 --> 00:00:02,000\nhello there\n", encoding="utf-8")
    (tmp_path / "repair.toml").write_text('title = "A"\ncaptions = "c.srt"\n', encoding="utf-8")
    manuscript = prepare(examine(tmp_path))
    assert "Nothing is written otherwise" in captions_review_md(manuscript)
    assert captions_srt(manuscript) == "1\n00:00:01,000 --> 00:00:02,000\nhello there\n"
