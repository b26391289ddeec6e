from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from witnessmark.proof.wording import clock
from witnessmark.publication.escape import markdown, precise, printable


@given(st.text())
def test_escaped_text_has_no_markup_in_it(text):
    tokens = MarkdownIt("commonmark").enable("table").enable("strikethrough").parse(markdown(text))
    assert {token.type for token in tokens} <= {"paragraph_open", "inline", "paragraph_close"}
    inline = {child.type for token in tokens for child in token.children or ()}
    assert inline <= {"text", "text_special"}


@given(st.text())
def test_printable_text_is_one_line_without_controls(text):
    shown = printable(text)
    assert shown.splitlines() in ([], [shown])
    assert not any(ord(character) < 32 or 127 <= ord(character) < 160 for character in shown)


def test_clock_as_players_show_it():
    assert [clock(seconds) for seconds in (0, 9.99, 65, 3600, 36061)] == ["0:00", "0:09", "1:05", "1:00:00", "10:01:01"]


def test_times_for_cutting_are_told_to_the_tenth():
    assert [precise(seconds) for seconds in (0.04, 59.96, 167.77)] == ["0:00.0", "1:00.0", "2:47.8"]
