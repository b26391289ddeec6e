"""Which words of a caption are spoken: *caption* above, *words* below. All text is invented."""

import pytest

from witnessmark.transcript import parse_transcript
from witnessmark.transcript.syllables import syllables

CASES = [
    ("[Music] tighten it [Applause]", "tighten it"),
    ("tighten [ __ ] bolt", "tighten bolt"),
    ("(laughs) tighten it (engine revving)", "tighten it"),
    ("the bolt (the left one) first", "the bolt (the left one) first"),
    ("a socket (17 mm) fits", "a socket (17 mm) fits"),
    ("torque is [25] here", "torque is [25] here"),
    ("♪ la la ♪", "la la"),
    (">> hello >>> you\n>>there", "hello you there"),
    ("- undo it\n– now", "undo it now"),
    ("10 - 12 newton metres", "10 - 12 newton metres"),
    ("-5 degrees", "-5 degrees"),
    ("17\u00a0mm\u2009wrench", "17 mm wrench"),
    ("bolt\u200b\u202a head\u202c \ufeff", "bolt head"),
    ("{\\an8}undo {\\i1}it", "undo it"),
    ("&gt;&gt; R&amp;D &lt;17", "R&D <17"),
    ('M8x1.25, 3/8" and 90°', 'M8x1.25, 3/8" and 90°'),
]


@pytest.mark.parametrize(("caption", "words"), CASES)
def test_spoken_words(caption: str, words: str) -> None:
    found = parse_transcript(f"WEBVTT\n\n00:00.000 --> 00:09.000\n{caption}\n".encode(), "captions")
    assert " ".join(word.text for word in found.words) == words


def test_the_cue_keeps_its_sound_notes() -> None:
    found = parse_transcript(
        b"WEBVTT\n\n00:00.000 --> 00:09.000\n[Music] <b>go</b>\n\n00:09.000 --> 00:10.000\n[Music]", "x"
    )
    assert [cue.text for cue in found.cues] == ["[Music] go", "[Music]"]
    assert [(word.text, word.cue) for word in found.words] == [("go", 0)]


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("77", 5),  # sev-en-ty sev-en
        ("17", 3),
        ("20", 2),
        ("110", 4),  # one hun-dred ten
        ("0.044", 7),  # ze-ro point ze-ro four four
        ("62000", 5),
        ("0w20", 7),  # ze-ro dou-ble-u twen-ty
        ("torque", 1),
        ("tightened", 2),
        ("tighten", 2),
        ("bottle", 2),
        ("wire", 1),
        ("hoses", 2),
        ("bolts", 1),
        ("newton", 2),
        ("metres", 2),
        ("alternator,", 4),
        ("mm", 2),
        ("-", 1),
        ("²", 1),
    ],
)
def test_syllables(word: str, count: int) -> None:
    """Counted by ear, *common practice*."""
    assert syllables(word) == count
