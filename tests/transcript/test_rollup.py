"""Roll-up captions: *file* above, *words in order* below. All text is invented."""

from witnessmark.transcript import Transcript, parse_transcript


def vtt(*cues: tuple[float, float, str]) -> Transcript:
    blocks = [f"00:{start:06.3f} --> 00:{end:06.3f}\n{text}\n" for start, end, text in cues]
    return parse_transcript("\n".join(["WEBVTT\n", *blocks]).encode(), "captions.vtt")


def said(found: Transcript) -> str:
    return " ".join(word.text for word in found.words)


def test_automatic_captions_show_each_line_twice() -> None:
    found = vtt(
        (1, 3, " \nround<00:01.500><c> and</c><00:02.000><c> round</c>"),
        (3, 3.01, "round and round\n "),
        (3.2, 5, "round and round\nthen<00:03.700><c> off</c>"),
        (5, 5.01, "then off\n "),
    )
    assert [(word.text, word.start) for word in found.words] == [
        ("round", 1.0), ("and", 1.5), ("round", 2.0), ("then", 3.2), ("off", 3.7),
    ]  # fmt: skip
    assert [cue.text for cue in found.cues] == ["round and round", "then off"]


def test_automatic_captions_of_a_speaker_who_repeats_a_line() -> None:
    line = "turn<00:{}.500><c> it</c>"
    found = vtt(
        (1, 3, " \n" + line.format("01")),
        (3, 3.01, "turn it\n "),
        (3.01, 5, "turn it\n" + line.format("03")),
        (5, 5.01, "turn it\n "),
        (5.01, 7, "turn it\n" + line.format("05")),
        (7, 7.01, "turn it\n "),
    )
    assert said(found) == "turn it turn it turn it"


def test_two_lines_scrolling_without_word_times() -> None:
    found = vtt((1, 3, "undo it"), (3, 5, "undo it\nlift it"), (5, 7, "lift it\nturn it"), (7, 9, "turn it\nclean it"))
    assert said(found) == "undo it lift it turn it clean it"
    assert [word.start for word in found.words] == [1.0, 2.2, 3.0, 3.6, 5.0, 5.6, 7.0, 7.6]


def test_scrolling_lines_that_are_really_said_twice() -> None:
    found = vtt(
        (1, 3, "undo it"),
        (3, 5, "undo it\nlift it"),
        (5, 7, "lift it\nlift it"),
        (7, 9, "lift it\nlift it"),
        (9, 11, "lift it\nturn it"),
        (15, 16, "turn it"),
    )
    assert said(found) == "undo it lift it lift it lift it turn it turn it"


def test_captions_that_do_not_roll_keep_what_is_said_twice() -> None:
    found = vtt(
        (1, 2, "turn it"), (2, 3, "turn it"), (3, 5, "turn it\nand again"), (5, 6, "turn it"), (6, 7, "clean it\nwell")
    )
    assert said(found) == "turn it turn it turn it and again turn it clean it well"


def test_converted_automatic_captions_in_subrip() -> None:
    text = """1
00:00:01,000 --> 00:00:03,000

undo it

2
00:00:03,000 --> 00:00:03,010
undo it


3
00:00:03,010 --> 00:00:05,000
undo it
lift it

4
00:00:05,000 --> 00:00:05,010
lift it


5
00:00:05,010 --> 00:00:07,000
lift it
turn it
"""
    assert said(parse_transcript(text.encode(), "captions.srt")) == "undo it lift it turn it"
