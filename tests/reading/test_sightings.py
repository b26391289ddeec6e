"""Namings of things in the words: what the table's rows make of them."""

from pathlib import Path

import pytest

from witnessmark.language.speech import read_speech
from witnessmark.reading.sightings import find_sightings
from witnessmark.specs.table import read_tables
from witnessmark.transcript import parse_transcript


@pytest.mark.parametrize(
    ("property", "value", "kind"),
    [("torque", "8 N·m", "fastener"), ("tightening torque", "8 N·m", "fastener"), ("gap", "1 mm", "part")],
)
def test_what_has_a_torque_under_any_name_is_a_fastener(tmp_path: Path, property: str, value: str, kind: str) -> None:
    (tmp_path / "specs.csv").write_text(
        f"item,property,value,source\nblue doodah,{property},{value},book\n", encoding="utf-8"
    )
    speech = read_speech(parse_transcript(b"WEBVTT\n\n00:01.000 --> 00:03.000\nThe blue doodah.\n", "talk.vtt"))
    (sighting,) = find_sightings(speech, read_tables([tmp_path / "specs.csv"]))
    assert (sighting.item, sighting.kind) == ("blue doodah", kind)
