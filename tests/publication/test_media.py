"""What cannot be made is left out with a note, and the rest is written."""

import os
import sys
from types import SimpleNamespace

import pytest

from witnessmark.publication.build import WRITERS, build
from witnessmark.publication.media import EXTRAS, MEDIA, present

TEXTS = {name for name, _ in WRITERS}


def hide(monkeypatch, *extras):
    """As if the libraries of these extras were not installed; NumPy is there in any case."""
    for module in (module for extra in extras for module in EXTRAS[extra] if module != "numpy"):
        monkeypatch.setitem(sys.modules, module, None)


def built(examination, out, **how):
    notes: list[str] = []
    written = build(examination, out, note=notes.append, **how)
    return {each.path.relative_to(out).as_posix() for each in written}, notes


def test_without_any_extra_the_texts_are_written_and_one_note_names_all(manuscript, monkeypatch, tmp_path):
    hide(monkeypatch, "video", "edit", "pdf")
    names, notes = built(manuscript().examination, tmp_path / "out")
    media = ("cards", "corrections.otio", "corrections.edl", "guide.pdf")
    assert names >= TEXTS and not any(name.startswith(media) for name in names)
    assert notes == [
        "left out: cards, corrections.otio, guide.pdf; "
        "to have them, install the extras: pip install 'witnessmark[video,edit,pdf]'"
    ]


@pytest.mark.parametrize("extra", sorted(EXTRAS))
def test_each_extra_can_be_missing_alone(manuscript, monkeypatch, tmp_path, extra):
    hide(monkeypatch, extra)
    names, notes = built(manuscript().examination, tmp_path / "out")
    lost = {medium.name for medium in MEDIA if medium.extra == extra}
    assert names >= TEXTS and not any(name.split("/")[0] in lost for name in names)
    assert len([line for line in notes if f"witnessmark[{extra}" in line or f",{extra}" in line]) == 1


def test_what_nobody_wants_costs_no_note(manuscript, monkeypatch, tmp_path):
    hide(monkeypatch, "video", "edit")
    _, notes = built(manuscript(findings=()).examination, tmp_path / "out")
    assert not any("cards" in line or "corrections" in line for line in notes)


needs_video = pytest.mark.skipif(not present("video"), reason="the extra `video` is not installed")


@needs_video
def test_everything_is_written_where_all_is_there(filmed, tmp_path):
    names, notes = built(filmed(), tmp_path / "out")
    assert notes == []
    assert names >= TEXTS | {"stills/step01.jpg", "stills/step02.jpg", "contact_sheet.jpg", "cards/c01.png"}
    assert "chaptered.mp4" not in names


@needs_video
def test_a_broken_video_leaves_the_rest(filmed, tmp_path):
    examination = filmed(duration=1.0)
    examination.project.video.write_bytes(b"broken")
    names, notes = built(examination, tmp_path / "out", with_video=True)
    assert names >= TEXTS | {"cards/c01.png"} and not any(name.startswith("stills") for name in names)
    assert len(notes) == 2 and all("video.mp4" in line for line in notes)


@needs_video
@pytest.mark.skipif(os.geteuid() == 0 if hasattr(os, "geteuid") else True, reason="root may read anything")
def test_a_video_that_may_not_be_read_leaves_the_rest(filmed, tmp_path):
    examination = filmed(duration=1.0)
    examination.project.video.chmod(0)
    names, notes = built(examination, tmp_path / "out")
    assert names >= TEXTS and len(notes) == 1 and "cannot be read" in notes[0]


@needs_video
def test_no_room_for_a_copy_leaves_the_rest(filmed, monkeypatch, tmp_path):
    monkeypatch.setattr("shutil.disk_usage", lambda _: SimpleNamespace(free=10))
    names, notes = built(filmed(), tmp_path / "out", with_video=True)
    assert names >= TEXTS | {"stills/step01.jpg"} and "chaptered.mp4" not in names
    assert len(notes) == 1 and "not enough room" in notes[0]


@needs_video
def test_the_original_is_never_written_over(filmed, tmp_path):
    examination = filmed()
    before = examination.project.video.read_bytes()
    out = tmp_path / "out"
    out.mkdir()
    os.link(examination.project.video, out / "chaptered.mp4")
    names, notes = built(examination, out, with_video=True)
    assert examination.project.video.read_bytes() == before
    assert not any(name.startswith("chaptered") for name in names) and "the video itself" in notes[0]


@needs_video
def test_a_kind_of_file_without_chapters_is_told(filmed, tmp_path):
    _, notes = built(filmed(ending=".avi"), tmp_path / "out", with_video=True)
    assert len(notes) == 1 and "holds no chapters" in notes[0]


def test_a_copy_without_a_video_is_told(manuscript, tmp_path):
    _, notes = built(manuscript().examination, tmp_path / "out", with_video=True)
    assert any("there is no video" in line for line in notes)


@needs_video
def test_nothing_is_left_of_an_earlier_still(filmed, tmp_path):
    out = tmp_path / "out"
    built(filmed(), out)
    assert (out / "stills" / "step02.jpg").exists()
    built(filmed(starts=(1.0,)), out)
    assert sorted(path.name for path in (out / "stills").iterdir()) == ["step01.jpg"]
    assert not list(out.glob(".witnessmark-*"))
