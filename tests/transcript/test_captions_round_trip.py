"""Captions written in a format, an encoding, with a line end, and read back: same text, same times to the ms."""

from collections.abc import Callable, Sequence
from xml.sax.saxutils import escape

from hypothesis import given
from hypothesis import strategies as st

from witnessmark.errors import InputError
from witnessmark.transcript import parse_transcript

Caption = tuple[int, int, str]
"""Start and end in milliseconds, and the text."""


def clock(milliseconds: int, mark: str = ".") -> str:
    seconds, thousandths = divmod(milliseconds, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}{mark}{thousandths:03}"


def webvtt(captions: Sequence[Caption]) -> str:
    return "WEBVTT\n\n" + "\n".join(f"{clock(a)} --> {clock(b)}\n{escape(text)}\n" for a, b, text in captions)


def subrip(captions: Sequence[Caption]) -> str:
    blocks = [
        f"{n}\n{clock(a, ',')} --> {clock(b, ',')}\n{escape(text)}\n" for n, (a, b, text) in enumerate(captions, 1)
    ]
    return "\n".join(blocks)


def sbv(captions: Sequence[Caption]) -> str:
    return "\n".join(f"{clock(a)},{clock(b)}\n{escape(text)}\n" for a, b, text in captions)


def ttml(captions: Sequence[Caption]) -> str:
    paragraphs = [
        f'<p begin="{clock(a)}" dur="{b - a}ms">{escape(text).replace(chr(10), "<br/>")}</p>' for a, b, text in captions
    ]
    return f'<tt xmlns="http://www.w3.org/ns/ttml"><body><div>{"".join(paragraphs)}</div></body></tt>'


# Letters and marks of one caption line; no brackets, dashes or digits: they can be notes, marks or counters.
word = st.text(st.sampled_from("abcdefgxyzéü&<>,.'°½"), min_size=1, max_size=8).map(lambda text: "w" + text)
line = st.lists(word, min_size=1, max_size=6).map(" ".join)


@st.composite
def caption_lists(draw: st.DrawFn) -> list[Caption]:
    at, captions = 0, []
    for index in range(draw(st.integers(1, 8))):
        at += draw(st.integers(0, 100_000))
        end = at + draw(st.integers(200, 9000))
        lines = [f"n{index}" + chr(97 + index), *draw(st.lists(line, max_size=2))]  # no caption repeats another
        captions.append((at, end, "\n".join(lines)))
        at = end
    return captions


@given(
    captions=caption_lists(),
    render=st.sampled_from([webvtt, subrip, sbv, ttml]),
    encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"]),
    line_end=st.sampled_from(["\n", "\r\n", "\r"]),
)
def test_read_back(
    captions: list[Caption], render: Callable[[Sequence[Caption]], str], encoding: str, line_end: str
) -> None:
    data = render(captions).replace("\n", line_end).encode(encoding)
    found = parse_transcript(data, "captions")
    assert [(round(cue.start * 1000), round(cue.end * 1000), cue.text) for cue in found.cues] == captions
    assert [word.text for word in found.words] == " ".join(text for _, _, text in captions).split()
    assert not found.notes
    for spoken in found.words:
        cue = found.cues[spoken.cue]
        assert cue.start <= spoken.start <= spoken.end <= cue.end + 0.001


@given(st.lists(st.tuples(word, st.integers(100, 2000)), min_size=1, max_size=20), st.integers(0, 10_000_000))
def test_word_times_read_back(words: list[tuple[str, int]], begin: int) -> None:
    starts = [begin]
    for _, length in words:
        starts.append(starts[-1] + length)
    timed = "".join(
        f"<{clock(at)}><c> {escape(text)}</c>" for (text, _), at in zip(words[1:], starts[1:], strict=False)
    )
    text = f"WEBVTT\n\n{clock(begin)} --> {clock(starts[-1])}\n{escape(words[0][0])}{timed}\n"
    found = parse_transcript(text.encode(), "captions.vtt")
    assert [(word.text, round(word.start * 1000)) for word in found.words] == [
        (text, at) for (text, _), at in zip(words, starts, strict=False)
    ]


@given(
    st.binary(max_size=300)
    | st.text(max_size=200).map(lambda text: f"WEBVTT\n\n00:00.000 --> 00:09.000\n{text}".encode())
)
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    try:
        found = parse_transcript(data, "captions")
    except InputError as error:
        assert "\n" not in str(error)
    else:
        assert all(spoken.start <= spoken.end for spoken in found.words)


@given(
    st.lists(
        st.sampled_from(
            ["0:01", "0:00:01,000 --> 0:00:02,000", "1", "0:00:01.000,0:00:02.000", "[0:05]", "-->", "a", ""]
        )
    )
)
def test_any_order_of_lines_is_read_or_refused(lines: list[str]) -> None:
    try:
        found = parse_transcript("\n".join(lines).encode(), "captions")
    except InputError:
        return
    assert all(0 <= spoken.start <= spoken.end for spoken in found.words)
