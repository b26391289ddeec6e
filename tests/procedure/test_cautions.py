"""Cautions, against readable sentences of many trades, longer narrations and the annotated recordings."""

import json
import tomllib
from dataclasses import dataclass
from pathlib import Path

import pytest

from witnessmark.language.speech import Speech, read_speech
from witnessmark.procedure.cautions import MOST_OF_ONE_HAZARD, Caution, find_cautions
from witnessmark.procedure.hazards import hazard_book
from witnessmark.procedure.signal_words import ORDER
from witnessmark.reading.sightings import find_sightings
from witnessmark.specs.table import SpecTable, read_tables
from witnessmark.transcript.model import Transcript, Word
from witnessmark.transcript.reader import read_transcript

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
HAZARDS = frozenset(
    """lifting stored_energy pressure hot fuel_fire electric_shock airbag high_voltage battery moving_parts dust chemical eye cut pinch
    exhaust_gas refrigerant critical_fastener one_time_fastener disposal water_and_electricity""".split()  # noqa: SIM905
)
PLACES = ("sample_projects", "benchmarks/recordings", "../shared/recordings")
RECORDINGS = sorted(gold.parent for place in PLACES for gold in (ROOT / place).glob("*/gold.json"))


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


def cautions_of(text: str, machine: str | None) -> tuple[Caution, ...]:
    speech, table = speech_of(text), SpecTable(())
    return find_cautions(speech, find_sightings(speech, table), table, machine)


def hazards_of(text: str, machine: str | None) -> set[str]:
    return {caution.hazard for caution in cautions_of(text, machine)}


@pytest.mark.parametrize("case", cases("cautions_said_found.txt"), ids=lambda case: f"{case.machine}: {case.said[:50]}")
def test_sentences(case: Case) -> None:
    assert hazards_of(case.said, case.machine) == case.found


def test_narrations_together() -> None:
    """Judged as a whole: in longer talk a caution more than a careful reader would give does little harm, one missed does."""
    read = [(hazards_of(case.said, case.machine), case.found) for case in cases("cautions_narrations.txt")]
    right = sum(len(found & due) for found, due in read)
    assert right / sum(len(due) for _, due in read) >= 0.98
    assert right / sum(len(found) for found, _ in read) >= 0.9


def recording_hazards(folder: Path) -> tuple[set[str], set[str]]:
    """Hazards found in an annotated recording, and those that are due."""
    project = tomllib.loads((folder / "repair.toml").read_text(encoding="utf-8"))
    speech = read_speech(read_transcript(folder / project["captions"]))
    table = read_tables([folder / name for name in project["specs"]])
    cautions = find_cautions(speech, find_sightings(speech, table), table, project["machine"]["kind"])
    due = {hazard["id"] for hazard in json.loads((folder / "gold.json").read_text(encoding="utf-8"))["hazards"]}
    return {caution.hazard for caution in cautions}, due


def test_annotated_recordings_together() -> None:
    """Floors, so that a fall fails; the aim is every hazard that is due."""
    read = [recording_hazards(folder) for folder in RECORDINGS]
    right = sum(len(found & due) for found, due in read)
    assert right / sum(len(due) for _, due in read) >= 0.99
    assert right / sum(len(found) for found, _ in read) >= 0.8


def test_same_recording_same_cautions() -> None:
    said = "jack up the car put it on stands drain the old oil into a pan and tighten the wheel nuts"
    assert cautions_of(said, "hatchback") == cautions_of(said, "hatchback")


def test_no_words_no_cautions() -> None:
    assert cautions_of("", "hatchback") == ()


def test_at_most_two_of_one_hazard() -> None:
    said = (
        "hit the punch with the hammer then grind the head off then the wire wheel and blow it out with the air gun "
        "and the brake cleaner splashes in your face so goggles on"
    )
    eyes = [caution for caution in cautions_of(said, "hatchback") if caution.hazard == "eye"]
    assert len(eyes) == MOST_OF_ONE_HAZARD


def test_cautions_stand_in_the_order_said() -> None:
    starts = [
        caution.start
        for caution in cautions_of(
            "brake dust everywhere then drop it on the jack stands then torque the wheel nuts", "van"
        )
    ]
    assert starts == sorted(starts)


def test_a_caution_stands_where_the_work_is_not_where_tools_are_listed() -> None:
    said = (
        f"what you need is a floor jack and rags {'and some other thing ' * 25} so the jack goes under the crossmember"
    )
    (caution,) = (caution for caution in cautions_of(said, "sedan") if caution.hazard == "lifting")
    assert caution.start > 20


def test_the_speakers_own_warning_is_quoted_from_the_captions() -> None:
    (caution,) = (
        caution
        for caution in cautions_of("Slide the Panel off. Be careful, the Edges are sharp!", "dryer")
        if caution.hazard == "cut"
    )
    assert caution.spoken == "Be careful, the Edges are sharp!"


def test_no_warning_said_none_quoted() -> None:
    (caution,) = cautions_of("the strut goes in the spring compressor", "hatchback")
    assert caution.spoken is None


def test_the_text_suits_the_job() -> None:
    garage = {caution.id for caution in cautions_of("the torsion spring is broken", "garage door")}
    car = {caution.id for caution in cautions_of("the coil spring is broken", "hatchback")}
    assert "stored-energy-garage-door-spring" in garage
    assert car == {"stored-energy-suspension-spring"}


def test_a_machine_that_a_longer_name_only_contains() -> None:
    assert "electric_shock" not in hazards_of("two screws hold the handle", "pressure washer")
    assert "electric_shock" in hazards_of("two screws hold the handle", "washer")


def test_the_machine_is_read_from_the_talk_where_the_project_does_not_say() -> None:
    said = "the dishwasher will not drain so i tip the dishwasher back and two screws hold the base of the dishwasher"
    assert "electric_shock" in hazards_of(said, None)


def test_comparisons_are_silent() -> None:
    assert hazards_of("it hit the floor like a coil spring", "hatchback") == set()


def test_left_for_another_day_is_silent() -> None:
    assert "airbag" not in hazards_of("the airbag is in there too but we're not touching that today", "hatchback")


def test_every_hazard_of_the_contract_has_entries() -> None:
    hazards = hazard_book().hazards
    assert {entry.hazard for entry in hazards} == HAZARDS
    assert len(hazards) >= 45
    assert len({entry.id for entry in hazards}) == len(hazards)


@pytest.mark.parametrize("entry", hazard_book().hazards, ids=lambda entry: entry.id)
def test_every_entry_is_whole(entry) -> None:  # type: ignore[no-untyped-def]
    for sentence in (entry.danger, entry.consequence, entry.avoid):
        assert sentence.endswith(".") and sentence[0].isupper()
    assert entry.source and entry.signal in ORDER
    assert entry.when or entry.traits or entry.items
    text = f"{entry.danger} {entry.consequence} {entry.avoid}".casefold()
    assert "safely" not in text.replace("move safely", "") and "is safe" not in text and "completely" not in text
    known = hazard_book().machines
    assert entry.machines | entry.except_on | entry.always_on <= known.keys()
