import csv
from io import StringIO

from hand_made import finding

from witnessmark.procedure.model import Chapter
from witnessmark.publication.chapters import playable
from witnessmark.publication.chapters_txt import chapters_txt
from witnessmark.publication.findings_md import findings_md
from witnessmark.publication.kit_csv import kit_csv
from witnessmark.publication.kit_md import kit_md


def test_chapters_begin_at_zero(manuscript):
    assert chapters_txt(manuscript()).splitlines() == ["0:00 Bracket", "0:40 Drain plug", "1:00 End"]


def test_a_chapter_too_short_for_players_is_left_out():
    marks = (Chapter(0.0, "a"), Chapter(9.9, "b"), Chapter(20.0, "c"), Chapter(31.0, "d"), Chapter(95.0, "e"))
    assert [mark.title for mark in playable(marks, 100.0)] == ["a", "c", "d"]


def test_fewer_than_three_chapters_are_none():
    assert playable((Chapter(0.0, "a"), Chapter(50.0, "b")), 100.0) == ()


def test_the_kit_lists_the_torque_of_the_manual_and_not_what_was_said(manuscript):
    text = kit_md(manuscript())
    assert "| drain plug | 30 N·m (22 lbf·ft) | 17 mm | Manual p. 9 |" in text
    assert "50 N·m" not in text


def test_the_kit_for_spreadsheets_has_one_row_a_thing(manuscript):
    rows = list(csv.DictReader(StringIO(kit_csv(manuscript()))))
    assert ("tool", "floor jack") in [(row["kind"], row["name"]) for row in rows]


def test_findings_tell_all_that_is_needed_to_mend_them(manuscript):
    text = findings_md(manuscript())
    assert "## Holds" in text
    assert "specs.csv row 3, Manual p. 9" in text
    for told in ("0:42", "50 newton metres", "another row's value", "0:42.0 to 0:46.0", "`f1`"):
        assert told in text


def test_settled_findings_stand_last_with_their_reason(manuscript):
    settled = finding("f2", settled="keep: read from the newer manual")
    text = findings_md(manuscript(findings=(settled, finding("f1"))))
    assert text.index("`f1`") < text.index("## Settled") < text.index("read from the newer manual")


def test_no_finding_does_not_mean_safe(manuscript):
    assert "does not say that the repair is safe" in findings_md(manuscript(findings=()))


def test_markup_in_captions_is_printed_as_it_stands(manuscript):
    text = findings_md(manuscript(findings=(finding(said="<script>*x*</script>\u202e\x1b[31m"),)))
    assert r"\<script\>\*x\*\</script\>" in text
    assert "\u202e" not in text and "\x1b" not in text
