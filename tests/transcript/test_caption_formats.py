"""Each caption format: the file above, what is read from it below. All text is invented."""

import pytest

from witnessmark.transcript import Transcript, parse_transcript


def read(text: str) -> Transcript:
    return parse_transcript(text.encode(), "captions")


def cues(text: str) -> list[tuple[float, float, str]]:
    return [(cue.start, cue.end, cue.text) for cue in read(text).cues]


def notes(text: str) -> list[tuple[int, str]]:
    return [(note.line, note.message) for note in read(text).notes]


CASES = {
    "WebVTT": (
        """WEBVTT - drain plug
Kind: captions

NOTE filmed in June

STYLE
::cue { color: lime }

one
00:01.000 --> 00:02.500 align:start position:0%
<v Joe>undo the <b>drain</b> plug</v>
00:02.500 --> 00:03.000
it&#39;s 17&nbsp;mm

1:00:00.000 --> 01:00:01.000
last &amp; done
""",
        [
            (1.0, 2.5, "undo the drain plug"),
            (2.5, 3.0, "it's 17 mm"),
            (3600.0, 3601.0, "last & done"),
        ],
    ),
    "SubRip": (
        """1
00:00:01,000 --> 00:00:02,500 X1:10 X2:20
{\\an8}<i>undo</i> the <font color="#fff">drain plug</font>
2
00:00:02.500 --> 00:00:03.000
17
then a < b

after an empty line

4
00:00:05,000 --> 00:00:06,000
done""",
        [
            (1.0, 2.5, "undo the drain plug"),
            (2.5, 3.0, "17\nthen a < b\nafter an empty line"),
            (5.0, 6.0, "done"),
        ],
    ),
    "SBV": (
        """0:00:01.000,0:00:02.500
undo the[br]drain plug

0:00:02.500,0:00:03.000
again
1:00:00.000,1:00:01.000
done
""",
        [(1.0, 2.5, "undo the\ndrain plug"), (2.5, 3.0, "again"), (3600.0, 3601.0, "done")],
    ),
    "stamped text": (
        "0:01\nundo the drain plug\nwith care\n4:07\nagain\n\n1:04:07\ndone it is\n",
        [(1.0, 247.0, "undo the drain plug\nwith care"), (247.0, 3847.0, "again"), (3847.0, 3848.8, "done it is")],
    ),
    "bracketed text": (
        "[0:01] undo the drain plug\nwith care\n\n[4:07] again [1:04:07] done it is",
        [(1.0, 247.0, "undo the drain plug\nwith care"), (247.0, 3847.0, "again"), (3847.0, 3848.8, "done it is")],
    ),
    "TTML": (
        """<?xml version="1.0" encoding="UTF-8"?>
<tt xmlns="http://www.w3.org/ns/ttml" xmlns:ttp="http://www.w3.org/ns/ttml#parameter" ttp:frameRate="25">
 <head><metadata><ttm:title xmlns:ttm="http://www.w3.org/ns/ttml#metadata">No words</ttm:title></metadata></head>
 <body begin="10s"><div begin="1s" end="60s">
  <p begin="00:00:01" end="00:00:02:10">undo the<br/>drain
     plug</p>
  <p begin="50t" dur="100f">again</p>
  <p begin="55s" dur="1m">cut short</p>
 </div></body></tt>""",
        [(12.0, 13.4, "undo the\ndrain plug"), (13.0, 17.0, "again"), (66.0, 70.0, "cut short")],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_captions_of_each_format(name: str) -> None:
    text, expected = CASES[name]
    assert read(text).format == name
    assert cues(text) == expected
    assert notes(text) == []


@pytest.mark.parametrize("line_end", ["\r\n", "\r"])
@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
@pytest.mark.parametrize("name", CASES)
def test_encodings_and_line_ends(name: str, encoding: str, line_end: str) -> None:
    text, _ = CASES[name]
    text = text.replace("plug", "plug 90° “quoted”")
    data = text.replace("\n", line_end).encode(encoding)
    found = parse_transcript(data, "captions")
    assert found.cues == read(text).cues
    assert [note.message for note in found.notes] == (
        ["this is not UTF-8; the file was read as Windows-1252"] if encoding == "cp1252" else []
    )


def test_one_broken_character_does_not_make_utf8_windows_1252() -> None:
    found = parse_transcript("0:01\nturn it 90° at 20 °C\n".encode() + b"\xff more\n", "captions")
    assert found.cues[0].text == "turn it 90° at 20 °C\n\ufffd more"
    assert found.notes[0].line == 3


def test_nul_is_shown_as_the_replacement_character() -> None:
    assert cues("WEBVTT\n\n00:00.000 --> 00:01.000\na\0b") == [(0.0, 1.0, "a\ufffdb")]


class TestTtmlNesting:
    @staticmethod
    def document(body: str, parameters: str = "") -> str:
        return f'<tt xmlns="http://www.w3.org/ns/ttml" {parameters}>{body}</tt>'

    def test_sequence_counts_from_the_end_of_the_one_before(self) -> None:
        body = '<body timeContainer="seq"><div dur="5s"/><div timeContainer="seq"><p dur="2s">one</p>'
        body += '<p begin="1s" dur="2s">two</p></div></body>'
        assert cues(self.document(body)) == [(5.0, 7.0, "one"), (8.0, 10.0, "two")]

    def test_spans_time_their_words(self) -> None:
        body = '<body><p begin="1s" end="9s">'
        body += '<span begin="0s" end="1s">undo</span> <span begin="2s">it</span> now</p></body>'
        times = [(word.text, word.start) for word in read(self.document(body)).words]
        assert times[:2] == [("undo", 1.0), ("it", 3.0)]
        assert read(self.document(body)).words[0].end == 1.0 + 2 * 0.5

    def test_paragraph_timed_only_by_its_spans(self) -> None:
        body = '<body><p><span begin="3s" end="4s">undo it</span><br/><span begin="5s" end="6s">now</span></p></body>'
        assert cues(self.document(body)) == [(3.0, 6.0, "undo it\nnow")]

    def test_text_without_a_time_is_noted(self) -> None:
        text = self.document('<body>\n<p>loose</p>\n<p begin="1s" end="2s">held</p></body>')
        assert notes(text) == [(2, "text without a time; left out: 'loose'")]

    def test_bad_time_is_noted(self) -> None:
        text = self.document('<body>\n<p begin="1s" end="soon">held</p></body>')
        assert notes(text) == [(2, "'soon' is no TTML time; read as if it were not there")]


ODD = {
    "WebVTT: malformed times lose the cue, as in a player": (
        "WEBVTT\n\n00:00.000 --> 00:01.000\none\n\n00:00:01,000 --> 00:02.000\ntwo\n\n00:02.000 --> 00:03.000\nthree",
        "one three",
        (6, "does not follow WebVTT"),
    ),
    "WebVTT: minutes over 59": (
        "WEBVTT\n\n00:75:00.000 --> 00:75:01.000\none\n\n00:02.000 --> 00:03.000\ntwo",
        "two",
        (3, "left out: 'one'"),
    ),
    "WebVTT: text after an empty line": (
        "WEBVTT\n\n00:00.000 --> 00:01.000\none\n\ntwo\n",
        "one",
        (6, "left out: 'two'"),
    ),
    "WebVTT: an unclosed <": (
        "WEBVTT\n\n00:00.000 --> 00:01.000\none\ntwo < three\n",
        "one two",
        (5, "left out: '< three'"),
    ),
    "SubRip: malformed times keep the words": (
        "1\n00:00:00,000 --> 00:00:01,000\none\n\n2\n00:00:0x,000 --> 00:00:02,000\ntwo\n\n"
        "3\n00:00:03,000 --> 00:00:04,000\nthree",
        "one two three",
        (6, "cannot be read"),
    ),
    "SubRip: minutes over 59": (
        "1\n00:75:00,000 --> 00:75:01,000\none\n",
        "one",
        (2, "over 59"),
    ),
    "SubRip: an arrow in the words is no time": (
        "1\n00:00:00,000 --> 00:00:01,000\nturn it left --> loose\n\n2\n00:00:01,000 --> 00:00:00,500\ntwo\n",
        "turn it left --> loose two",
        (6, "ends before or as it starts"),
    ),
    "SubRip: out of order": (
        "1\n00:00:05,000 --> 00:00:06,000\ntwo\n\n2\n00:00:01,000 --> 00:00:02,000\none\n",
        "one two",
        (6, "starts before one above it"),
    ),
    "SBV: malformed times keep the words": (
        "0:00:00.000,0:00:01.000\none\n\n0:00:01.000,0:00.2\ntwo\n",
        "one two",
        (4, "cannot be read"),
    ),
    "stamped: a heading": ("My transcript\n0:01\none\n0:02\ntwo\n", "one two", (1, "left out: 'My transcript'")),
    "stamped: seconds over 59": ("0:01\none\n0:75\ntwo\n", "one two", (3, "over 59")),
    "stamped: backwards": ("0:09\ntwo\n0:03\none\n", "one two", (3, "starts before one above it")),
}


@pytest.mark.parametrize("name", ODD)
def test_reading_goes_on_with_a_note(name: str) -> None:
    text, words, (line, message) = ODD[name]
    found = read(text)
    assert " ".join(word.text for word in found.words) == words
    assert [note.line for note in found.notes] == [line]
    assert message in found.notes[0].message


LOST = {
    "WebVTT: malformed times lose the cue, as in a player": ["two"],
    "WebVTT: minutes over 59": ["one"],
    "WebVTT: text after an empty line": ["two"],
    "WebVTT: an unclosed <": ["< three"],
    "SubRip: malformed times keep the words": [],
    "stamped: a heading": [],
    "stamped: seconds over 59": [],
}


@pytest.mark.parametrize("name", LOST)
def test_what_was_said_and_is_not_read_is_told_apart_from_what_is_odd(name: str) -> None:
    assert [note.lost for note in read(ODD[name][0]).lost] == LOST[name]


def test_ttml_without_a_time_is_lost() -> None:
    text = '<tt xmlns="http://www.w3.org/ns/ttml"><body><div><p>loose</p><p begin="1s" end="2s">tight</p></div></body></tt>'
    assert [note.lost for note in read(text).lost] == ["loose"]
