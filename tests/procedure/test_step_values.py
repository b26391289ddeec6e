"""Steps in which values are told: again after so far, every so often, measured and pumped up to."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from narration import speech_of, value

from witnessmark.language.speech import Speech
from witnessmark.procedure import ValueAt, find_procedure
from witnessmark.reading.sightings import find_sightings
from witnessmark.specs.table import SpecTable

FIXTURE = Path(__file__).parent / "values_said_found.txt"
VALUE = re.compile(r"\[([^=\]]+)=([^:\]]+):([^:\]]+)(?::([^\]]+))?\]")


def _cases() -> list[tuple[str, str]]:
    text = FIXTURE.read_text(encoding="utf-8")
    return re.findall(r"^said +(.+)\nfound +(.+)$", text, re.MULTILINE)


def _value(speech: Speech, found: re.Match[str], number: int) -> ValueAt:
    said, kind, shown, item = found.groups()
    return replace(value(speech, said, kind, shown, item, f"m{number}"), property=kind if item else "")


@pytest.mark.parametrize(("said", "found"), _cases())
def test_steps_with_values(said: str, found: str) -> None:
    speech = speech_of(VALUE.sub(lambda match: match[1], said))
    values = [_value(speech, match, n) for n, match in enumerate(VALUE.finditer(said))]
    steps = find_procedure(speech, find_sightings(speech, SpecTable(())), values).steps
    assert [step.text for step in steps] == ([] if found == "nothing" else found.split(" // "))
