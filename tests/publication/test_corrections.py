import csv
from dataclasses import replace
from io import StringIO

import pytest
from hand_made import finding

from witnessmark.proof.model import Fix
from witnessmark.publication.corrections import corrections
from witnessmark.publication.corrections_csv import COLUMNS, corrections_csv
from witnessmark.publication.corrections_vtt import corrections_vtt
from witnessmark.transcript import parse_transcript


def rows(manuscript) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(corrections_csv(manuscript))))


def test_one_row_a_card(manuscript):
    (row,) = rows(manuscript())
    assert (row["in"], row["out"]) == ("00:00:42.000", "00:00:46.000")
    assert (row["card_text"], row["caption_text"]) == ("Drain plug: 30 N·m", "30 newton metres")
    assert (row["finding"], row["state"]) == ("f1", "open hold")


def test_the_track_shows_each_card_from_in_to_out(manuscript):
    (cue,) = parse_transcript(corrections_vtt(manuscript()).encode(), "corrections.vtt").cues
    assert (cue.start, cue.end, cue.text) == (42.0, 46.0, "Drain plug: 30 N·m")


def test_a_figure_stays_with_its_unit(manuscript):
    card = Fix(card="Correction: front brake hose banjo bolt 34 N·m (25 lbf·ft)", card_in=1.0, card_out=5.0)
    text = corrections_vtt(manuscript(findings=(finding(fix=card),)))
    assert "banjo bolt\n34 N·m (25 lbf·ft)\n" in text


@pytest.mark.parametrize(
    "silent",
    [
        finding(severity="note"),
        finding(fix=None),
        finding(fix=Fix(question="Which?")),
        finding(check="misheard", settled="jack stands counts"),
        finding(fix=None, settled="kept as said: newer manual"),
    ],
)
def test_no_card_no_row(manuscript, silent):
    made = manuscript(findings=(silent,))
    assert corrections_csv(made) == ",".join(COLUMNS) + "\n"
    assert corrections_vtt(made) == "WEBVTT\n"


def test_a_settled_card_tells_its_decision(manuscript):
    (row,) = rows(manuscript(findings=(finding(settled="the manual's value counts: card cut in"),)))
    assert row["state"] == "the manual's value counts: card cut in"


def test_two_findings_that_ask_for_one_card_share_it(manuscript):
    made = manuscript(findings=(finding("f1"), replace(finding("f2"), start=43.0)))
    (card,) = corrections(made.examination.findings)
    assert [each.id for each in card.findings] == ["f1", "f2"]
    assert rows(made)[0]["finding"] == "f1 f2"


def test_cells_that_a_spreadsheet_would_run_and_text_that_would_be_markup(manuscript):
    fix = Fix("=1+1", "@card <script> --> &\nx", 1.0, 3.0)
    made = manuscript(findings=(finding(message="+evil", fix=fix),))
    (row,) = rows(made)
    assert (row["what"], row["caption_text"]) == ("'+evil", "'=1+1")
    assert row["card_text"] == "'@card <script> --> & x"
    (cue,) = parse_transcript(corrections_vtt(made).encode(), "x.vtt").cues
    assert cue.text == "@card <script> --> & x"


def test_cards_are_numbered_in_order_of_time():
    later = finding("late", fix=Fix(card="Correction: drain plug 30 N·m", card_in=42.0, card_out=45.0))
    sooner = finding("soon", fix=Fix(card="Correction: bracket bolts 25 N·m", card_in=21.0, card_out=24.0))
    found = corrections((later, sooner))
    assert [(each.number, each.name, each.findings[0].id) for each in found] == [
        (1, "cards/c01.png", "soon"),
        (2, "cards/c02.png", "late"),
    ]
    assert (found[0].matter, found[0].start) == ("bracket bolts 25 N·m", 21000)


def test_letters_that_steer_a_terminal_stay_off_a_card():
    (one,) = corrections((finding(fix=Fix(card="30 N·m\x1b[31m\u202e", card_in=1.0, card_out=3.0)),))
    assert one.text == "30 N·m[31m"
