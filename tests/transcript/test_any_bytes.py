"""Whatever a captions file holds, it is read or refused in one line, and the work grows no faster than the file."""

import sys
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.errors import InputError
from witnessmark.language.numbers import read_numbers
from witnessmark.size_limit import LARGEST
from witnessmark.transcript.reader import parse_transcript

HEADS = (
    "WEBVTT\n\n", "WEBVTT\n\n00:00:01.000 --> 00:00:03.000\n", "1\n00:00:01,000 --> 00:00:03,000\n", "0:00:01.000,0:00:03.000\n",
    "[0:01] ", "0:01\n", '<tt xmlns="http://www.w3.org/ns/ttml"><body><div><p begin="1s" end="3s">',
)  # fmt: skip
FRAGMENTS = (
    "\n", "\n\n", "turn it", "-->", "00:00:04.000", "00:00:09,500", "0:07", "[0:09]", "<c>", "</c>", "<00:00:02.000>", "<", ">", "&amp;", "&#",
    "9" * 30, "NOTE", "STYLE", "♪", "(music)", ">>", "\ufeff", "\0", "½", "</p>", '<p begin="', '"', "<br/>", "</div></body></tt>", "<!--", "]]>", "é",
)  # fmt: skip
ENCODINGS = ("utf-8", "utf-16", "utf-16-le", "utf-32", "cp1252")


def read_or_refused(data: bytes) -> None:
    try:
        transcript = parse_transcript(data, "captions")
    except InputError as error:
        assert "\n" not in str(error)
    else:
        assert transcript.words and all(0 <= word.start <= word.end for word in transcript.words)


@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    read_or_refused(data)


@given(
    st.sampled_from(HEADS),
    st.lists(st.sampled_from(FRAGMENTS) | st.text(max_size=5), max_size=25),
    st.sampled_from(ENCODINGS),
)
def test_the_signs_of_every_format_in_any_order(head: str, parts: list[str], encoding: str) -> None:
    read_or_refused((head + "".join(parts)).encode(encoding, "replace"))


def calls(work: Callable[[], object]) -> int:
    """How many functions are called, in Python or in C, while work is done: the same on every machine."""
    count = 0

    def counted(frame: object, event: str, argument: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    sys.setprofile(counted)
    try:
        work()
    except InputError:
        pass
    finally:
        sys.setprofile(None)
    return count


def _cue(second: int, end: int) -> str:
    stamps = (f"{t // 3600:02}:{t // 60 % 60:02}:{t % 60:02}.000" for t in (second, end))
    return f"{' --> '.join(stamps)}\nturn it\n\n"


VTT, TTML = HEADS[1], HEADS[-1]
HEAVY: dict[str, Callable[[int], str]] = {
    "tags": lambda n: VTT + "<b>" * n + "x",
    "tags never closed": lambda n: VTT + "<b " * n,
    "inline times": lambda n: VTT + "<00:00:02.000>a " * n,
    "digits": lambda n: VTT + "9" * n,
    "commas": lambda n: VTT + ",a" * n,
    "entities never closed": lambda n: VTT + "&#" * n,
    "lines": lambda n: VTT + "a\n" * n,
    "captions": lambda n: "WEBVTT\n\n" + "".join(_cue(i, i + 1) for i in range(n)),
    "captions at once": lambda n: "WEBVTT\n\n" + _cue(1, 2) * n,
    "captions that stay": lambda n: "WEBVTT\n\n" + "".join(_cue(i, 300_000) for i in range(n)),
    "captions backwards": lambda n: "WEBVTT\n\n" + "".join(_cue(i, i + 1) for i in reversed(range(n))),
    "nested spans": lambda n: TTML + "<span>" * n + "a" + "</span>" * n + "</p></div></body></tt>",
    "timed spans": lambda n: TTML + '<span begin="0.1s">a</span> ' * n + "</p></div></body></tt>",
    "brackets": lambda n: "[0:01] turn it\n" + "[" * n,
    "stamps": lambda n: "".join(f"{i // 60}:{i % 60:02}\nturn it\n" for i in range(n)),
}


@pytest.mark.parametrize("name", HEAVY)
def test_four_times_the_captions_are_four_times_the_work(name: str) -> None:
    small, large = (HEAVY[name](n).encode() for n in (500, 2000))
    assert calls(lambda: parse_transcript(large, "f")) <= 5 * calls(lambda: parse_transcript(small, "f")) + 1000


@pytest.mark.parametrize(
    "said", ["one", "hundred", "one and", "point", "one point", "a thousand", "9", "five to", "oh", "1/2", "5 -", "a half and"]
)  # fmt: skip
def test_four_times_the_numbers_are_four_times_the_work(said: str) -> None:
    words = said.split()
    assert calls(lambda: read_numbers(words * 2000)) <= 5 * calls(lambda: read_numbers(words * 500)) + 1000


def test_what_counts_work_sees_what_is_not_linear() -> None:
    def every_pair(n: int) -> None:
        for i in range(n):
            for j in range(n):
                max(i, j)

    assert calls(lambda: every_pair(80)) > 5 * calls(lambda: every_pair(20)) + 1000


@pytest.mark.parametrize("sign", ["<", "9", ",", "&", "a", "["])
def test_one_line_of_fifty_megabytes_is_refused_by_its_size(sign: str) -> None:
    with pytest.raises(InputError, match=r"50 MB is too large for captions \(at most 20 MB\)"):
        parse_transcript(sign.encode() * 50_000_000, "captions")
    assert LARGEST < 50_000_000


def test_a_million_captions_are_refused_by_their_size() -> None:
    data = b"WEBVTT\n\n" + b"00:00:01.000 --> 00:00:02.000\na\n\n" * 1_000_000
    with pytest.raises(InputError, match="too large"):
        parse_transcript(data, "captions")
