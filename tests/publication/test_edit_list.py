from dataclasses import replace

import pytest
from hand_made import finding

pytest.importorskip("opentimelineio")

import opentimelineio as otio

from witnessmark.proof.model import Fix
from witnessmark.publication.edit_list import edit_list
from witnessmark.publication.footage import Footage


def findings():
    return (
        finding("a", fix=Fix(card="Correction: bracket bolts 25 N·m", card_in=21.0, card_out=24.0)),
        finding("b", fix=Fix(card="Correction: drain plug 30 N·m", card_in=42.52, card_out=45.0)),
    )


def read_back(manuscript):
    return otio.adapters.read_from_string(edit_list(manuscript)["corrections.otio"], "otio_json")


def test_the_timeline_read_back_has_a_marker_for_each_correction(manuscript):
    timeline = read_back(manuscript(findings=findings()))
    assert timeline.name == "Bracket & <plug>"
    (clip,) = timeline.find_clips()
    told = [
        (m.comment, m.marked_range.start_time.to_seconds(), m.marked_range.end_time_exclusive().to_seconds())
        for m in clip.markers
    ]
    assert told == [("bracket bolts 25 N·m", 21.0, 24.0), ("drain plug 30 N·m", 42.52, 45.0)]
    assert [m.metadata["witnessmark"]["card"] for m in clip.markers] == ["cards/c01.png", "cards/c02.png"]
    assert {m.marked_range.start_time.rate for m in clip.markers} == {25.0}


@pytest.mark.parametrize(
    ("filmed", "told"),
    [(29.97, 30000 / 1001), (10.0, 24000 / 1001), (59.94, 60000 / 1001), (240.0, 60.0), (25.0, 25.0)],
)
def test_the_rate_is_a_time_code_rate_near_the_videos(manuscript, tmp_path, filmed, told):
    footage = Footage(tmp_path / "v.mp4", 1920, 1080, filmed, 75.0)
    seen = replace(manuscript(findings=findings()), footage=footage)
    (clip,) = read_back(seen).find_clips()
    assert clip.source_range.duration.rate == pytest.approx(told)
    assert clip.markers[1].marked_range.start_time.to_seconds() == pytest.approx(42.52, abs=1 / told)
    assert "corrections.otio" in edit_list(seen)


def test_the_edl_names_cards_and_no_values(manuscript):
    """An EDL is in capitals, in which mm and Mm, or m-ohm and M-ohm, are one."""
    pytest.importorskip("otio_cmx3600_adapter")
    text = edit_list(manuscript(findings=findings()))["corrections.edl"]
    assert "00:00:21:00" in text and "CARDS/C02.PNG" in text
    assert "N·M" not in text and "30" not in text.split("CORRECTION 2")[1]
    (clip,) = otio.adapters.read_from_string(text, "cmx_3600", rate=25).find_clips()
    assert len(clip.markers) == 2
