"""Cautions, against readable sentences of many trades and against the annotated recordings."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from witnessmark.language.speech import Speech, read_speech
from witnessmark.procedure.cautions import Caution, find_cautions
from witnessmark.reading.sightings import find_sightings
from witnessmark.specs.table import SpecTable
from witnessmark.transcript.model import Transcript, Word

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
HAZARDS = frozenset(
    [
        "lifting",
        "stored_energy",
        "pressure",
        "hot",
        "fuel_fire",
        "electric_shock",
        "airbag",
        "high_voltage",
        "battery",
        "moving_parts",
        "dust",
        "chemical",
        "eye",
        "cut",
        "pinch",
        "exhaust_gas",
        "refrigerant",
        "critical_fastener",
        "one_time_fastener",
        "disposal",
        "water_and_electricity",
    ]
)
RECORDINGS = sorted(
    gold.parent
    for place in ("sample_projects", "benchmarks/recordings", "../shared/recordings")
    for gold in (ROOT / place).glob("*/gold.json")
)


@dataclass(frozen=True)
class Case:
    machine: str
    said: str
    found: frozenset[str]


def cases(name: str) -> list[Case]:
    machine, always, said, read = "", frozenset[str](), "", []
    for line in (HERE / name).read_text(encoding="utf-8").splitlines():
        if line.startswith("== "):
            machine, _, rest = line[3:].partition("; always ")
            always = frozenset(part.strip() for part in rest.split(",") if part.strip())
        elif line.startswith("said "):
            said = line[5:].strip()
        elif line.startswith("found "):
            named = frozenset(part.strip() for part in line[6:].split(",")) - {"nothing"}
            assert named | always <= HAZARDS
            read.append(Case(machine, said, named | always))
    return read


def speech_of(text: str) -> Speech:
    words = tuple(Word(word, i * 0.4, i * 0.4 + 0.3, 0) for i, word in enumerate(text.split()))
    return read_speech(Transcript("webvtt", (), words))


def cautions_of(text: str, machine: str | None, table: SpecTable | None = None) -> tuple[Caution, ...]:
    table = table or SpecTable(())
    speech = speech_of(text)
    return find_cautions(speech, find_sightings(speech, table), table, machine)


@pytest.mark.parametrize("case", cases("cautions_said_found.txt"), ids=lambda case: f"{case.machine}: {case.said[:50]}")
def test_sentences(case: Case) -> None:
    assert {caution.hazard for caution in cautions_of(case.said, case.machine)} == case.found
