import os
from io import StringIO
from pathlib import Path

from hand_made import finding
from rich.console import Console

from witnessmark.publication.terminal import print_findings, summary, written_lines
from witnessmark.publication.write import Written


def printed(*findings, terminal: bool = False, environ: dict[str, str] | None = None) -> str:
    text = StringIO()
    # The console of a real terminal of 100 columns, its environment given.
    given = environ or {"TERM": "xterm"}
    console = Console(file=text, width=100, force_terminal=terminal, highlight=False, _environ=given)
    print_findings("Brakes", findings, console)
    return text.getvalue()


def test_plain_lines_where_the_output_is_no_terminal():
    lines = printed(finding()).splitlines()
    assert lines[0] == "0:42  hold  value  f1"
    assert '    said:       "50 newton metres"' in lines
    assert "    expected:   30 N·m (22 lbf·ft) (specs.csv row 3, Manual p. 9)" in lines
    assert lines[-1] == "Brakes: 1 hold"


def test_colour_on_a_terminal_and_none_where_it_is_not_wanted():
    assert "\x1b[1;31m" in printed(finding(), terminal=True)
    assert "\x1b[1;31m" not in printed(finding(), terminal=True, environ={"TERM": "xterm", "NO_COLOR": "1"})


def test_markup_and_control_characters_do_nothing():
    for terminal in (False, True):
        text = printed(finding(said="[bold red]x[/] \x1b[2J\x07"), terminal=terminal)
        assert "[bold red]x[/]" in text
        assert "\x1b[2J" not in text and "\x07" not in text


def test_one_line_sums_up():
    found = (finding("a"), finding("b"), finding("c", severity="query"), finding("d", settled="keep: newer manual"))
    assert summary("Brakes", found) == "Brakes: 2 holds, 1 query (1 settled)"
    assert summary("Brakes", ()) == "Brakes: nothing open"


def test_holds_stand_before_queries_whatever_their_time():
    text = printed(finding("late", start=90.0), finding("early", severity="query", start=1.0))
    assert text.index("late") < text.index("early")


def test_a_folder_of_files_is_one_line_but_what_was_edited_is_named():
    out = Path("out")
    written = (
        Written(out / "guide.md"),
        Written(out / "kit.md", merged=True),
        Written(out / "cards" / "c01.png"),
        Written(out / "cards" / "c02.png.new", "cards/c02.png"),
        Written(out / "cards" / "c03.png"),
    )
    cards = out / "cards"
    assert list(written_lines(out, written)) == [
        f"wrote {out / 'guide.md'}",
        f"wrote {out / 'kit.md'} (merged with your edits)",
        f"wrote {cards}{os.sep} (2 files)",
        f"wrote {cards / 'c02.png.new'} (cards/c02.png was edited since it was written and is kept)",
    ]
