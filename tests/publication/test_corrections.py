from hand_made import finding

from witnessmark.proof.model import Fix
from witnessmark.publication.corrections import corrections


def test_a_card_of_each_finding_that_asks_for_one_in_order_of_time():
    later = finding("late", fix=Fix(card="Correction: drain plug 30 N·m", card_in=42.0, card_out=45.0))
    sooner = finding("soon", fix=Fix(card="Correction: bracket bolts 25 N·m", card_in=21.0, card_out=24.0))
    question = finding("ask", fix=Fix(question="Which bolts?"))
    found = corrections((later, question, sooner, finding("kept", fix=None)))
    assert [(each.number, each.name, each.finding) for each in found] == [
        (1, "cards/c01.png", "soon"),
        (2, "cards/c02.png", "late"),
    ]
    assert found[0].text == "bracket bolts 25 N·m"


def test_two_findings_on_one_value_ask_for_one_card():
    same = Fix(card="Correction: drain plug 30 N·m", card_in=42.0, card_out=45.0)
    assert len(corrections((finding("a", fix=same), finding("b", fix=same)))) == 1


def test_letters_that_steer_a_terminal_stay_off_a_card():
    (one,) = corrections((finding(fix=Fix(card="30 N·m\x1b[31m\u202e", card_in=1.0, card_out=3.0)),))
    assert one.text == "30 N·m[31m"
