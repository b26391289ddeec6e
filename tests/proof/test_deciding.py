"""What decisions go with what findings, and what a refusal tells to do instead."""

from dataclasses import replace
from decimal import Decimal

import pytest

from witnessmark.errors import InputError
from witnessmark.language.speech import read_speech
from witnessmark.proof.deciding import decide
from witnessmark.proof.model import Finding
from witnessmark.quantity import Amount, TableRow, Value
from witnessmark.transcript import parse_transcript


def finding(check: str, said: str = "ten") -> Finding:
    return Finding(check, "query", 0.0, 1.0, said, "It is so.", id=f"{check}-12ab")


SPEECH = read_speech(parse_transcript(b"WEBVTT\n\n00:01.000 --> 00:02.000\nten for the bolts\n", "talk.vtt"))
REFUSED = {
    "no row": (finding("value"), "manual", "", ["no row", "--value", "--keep or --no-mistake", "--why"]),
    "no reason to keep": (finding("value"), "keep", "", ["--why", "why it stays as said"]),
    "no reason why it is wrong": (finding("value"), "no mistake", "", ["--why", "why the finding is wrong"]),
    "a value of a hazard": (finding("hazard"), "value", "35 N·m", ["about no value", "--keep or --no-mistake"]),
    "the manual on a promise": (finding("owed"), "manual", "", ["about no value", "--keep or --no-mistake"]),
    "no size of a tool": (finding("tool-size"), "value", "12 bananas", ["bananas"]),
}


@pytest.mark.parametrize(("found", "decision", "value", "told"), REFUSED.values(), ids=REFUSED)
def test_a_refusal_says_what_to_do_instead(found: Finding, decision: str, value: str, told: list[str]) -> None:
    with pytest.raises(InputError) as why:
        decide([found], SPEECH, found.id, decision, "", value)
    assert [each for each in told if each not in str(why.value)] == []


def test_a_tool_size_is_settled_with_another_size() -> None:
    row_value = Value((Amount(Decimal(35), Decimal(35), "N·m"),), None, "35 N·m", TableRow("specs.csv", 2, "book"))
    found = replace(finding("tool-size"), value=row_value)
    assert decide([found], SPEECH, found.id, "value", "", "12 mm").value == "12 mm"


@pytest.mark.parametrize(("written", "near"), [("value-12ac", True), ("zzz", False), ("value-9fe0", False)])
def test_a_near_finding_is_suggested_and_no_far_one(written: str, near: bool) -> None:
    with pytest.raises(InputError) as why:
        decide([finding("value")], SPEECH, written, "manual")
    assert ("the nearest is value-12ab" in str(why.value)) == near
