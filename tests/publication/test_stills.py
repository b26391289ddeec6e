"""Stills of drawn videos, in which only the middle second of each step is sharp."""

import re
from base64 import b64decode
from io import BytesIO

import numpy as np
import pytest

pytest.importorskip("av")

from PIL import Image, ImageFilter

from witnessmark.errors import InputError
from witnessmark.publication.build import build
from witnessmark.publication.contact_sheet import contact_sheet
from witnessmark.publication.footage import look_at
from witnessmark.publication.guide_html import guide_html
from witnessmark.publication.guide_md import guide_md
from witnessmark.publication.manuscript import prepare
from witnessmark.publication.media import illustrated
from witnessmark.publication.stills import WIDEST, sharpness, window

TURNED = Image.Exif()
"""Of a camera that was held upright: to be turned by 90 degrees (Exif 2.32, Orientation)."""
TURNED[0x0112] = 6


def seen(examination, notes=None):
    return illustrated(prepare(examination), True, notes.append if notes is not None else pytest.fail)


@pytest.mark.parametrize(
    "how",
    [
        {},
        {"sound": True},
        {"uneven": True},
        {"rotated": 90},
        {"ending": ".mkv"},
        {"ending": ".mov"},
        {"ending": ".avi"},
    ],
    ids=str,
)
def test_the_sharp_moment_of_each_step_is_found(filmed, how):
    stills = seen(filmed(**how)).stills
    assert sorted(stills) == [1, 2]
    for still, start in zip(stills.values(), (1.0, 6.0), strict=True):
        assert still.time == pytest.approx(start + 2, abs=0.55)


def test_a_turned_video_stands_upright(filmed):
    """Turned by 90 degrees counter-clockwise, the step's text at the upper left comes to stand at the lower left."""
    upright, turned = seen(filmed()).stills[1], seen(filmed(rotated=90)).stills[1]
    with Image.open(BytesIO(upright.jpeg)) as one, Image.open(BytesIO(turned.jpeg)) as other:
        assert (one.size, other.size) == ((320, 180), (180, 320))
        difference = np.asarray(one.rotate(90, expand=True), float) - np.asarray(other, float)
        assert np.abs(difference).mean() < 3


def test_the_look_of_a_turned_video_is_as_it_is_shown(filmed):
    footage = look_at(filmed(rotated=90, duration=3.0).project.video)
    assert (footage.width, footage.height) == (180, 320)
    assert footage.duration == pytest.approx(3.0, abs=0.15) and footage.rate == pytest.approx(10.0, abs=0.2)


def test_a_large_picture_is_made_smaller(filmed):
    still = seen(filmed(duration=2.0, starts=(0.5,), size=(1920, 1080))).stills[1]
    with Image.open(BytesIO(still.jpeg)) as picture:
        assert (picture.format, picture.size) == ("JPEG", (WIDEST, 720))


def test_a_step_after_the_end_of_the_video_has_no_still_and_a_note_tells_it(filmed):
    notes: list[str] = []
    made = seen(filmed(duration=5.0, starts=(1.0, 30.0)), notes)
    assert sorted(made.stills) == [1]
    assert notes == ["video.mp4: there is no picture of step 2: the video ends at 0:05"]
    with Image.open(BytesIO(contact_sheet(made))) as sheet:
        assert sheet.format == "JPEG"


def test_the_guides_show_the_stills(filmed):
    made = seen(filmed())
    assert "![Step 2: Fit thing 6.](stills/step02.jpg)" in guide_md(made)
    page = guide_html(made)
    assert page.count('<img class="still" src="data:image/jpeg;base64,') == 2
    assert 'alt="Step 1: Fit thing 1."' in page


def test_a_still_replaced_by_hand_is_kept_and_shown_in_every_guide(filmed, tmp_path):
    examination, out = filmed(), tmp_path / "out"
    build(examination, out)
    own = out / "stills" / "step01.jpg"
    Image.new("RGB", (1500, 900), "#0a7f3f").save(own, "JPEG", exif=TURNED)
    kept, contents = own.read_bytes(), []
    for _ in range(2):
        build(examination, out)
        assert own.read_bytes() == kept
        contents.append((out / "guide.html").read_bytes())
    assert contents[0] == contents[1]
    page = contents[0].decode("utf-8")
    shown = [b64decode(data) for data in re.findall(r'src="data:image/jpeg;base64,([^"]*)"', page)]
    assert len(shown) == 2 and 'width="720" height="1200"' in page
    with Image.open(BytesIO(shown[0])) as first, Image.open(BytesIO(shown[1])) as second:
        assert (first.size, second.size) == ((720, 1200), (320, 180))
        assert np.abs(np.asarray(first, int)[600, 360] - (10, 127, 63)).max() < 4 and not first.getexif()
    with Image.open(out / "contact_sheet.jpg") as sheet:
        assert (np.abs(np.asarray(sheet, int) - (10, 127, 63)).max(axis=2) < 8).sum() > 5000


def test_what_stands_in_a_stills_place_and_is_no_picture_costs_a_note(filmed, tmp_path):
    examination, out = filmed(), tmp_path / "out"
    build(examination, out)
    before = (out / "guide.html").read_bytes()
    (out / "stills" / "step02.jpg").write_bytes(b"GIF89a is none")
    notes: list[str] = []
    build(examination, out, note=notes.append)
    assert (out / "guide.html").read_bytes() == before
    assert len(notes) == 1 and "step02.jpg" in notes[0] and "no picture that can be read" in notes[0]


def test_stills_are_the_same_every_time(filmed):
    examination = filmed()
    assert seen(examination) == seen(examination)


def test_blur_makes_a_picture_less_sharp():
    generator = np.random.default_rng(7)
    rough = Image.fromarray(generator.integers(0, 255, (120, 160), dtype=np.uint8))
    measured = [sharpness(np.asarray(rough.filter(ImageFilter.GaussianBlur(radius)))) for radius in (0, 1, 2, 4)]
    assert measured == sorted(measured, reverse=True) and len(set(measured)) == 4


def test_the_variance_of_the_laplacian_reckoned_by_hand():
    """One bright point of 8 in a field of noughts: Laplacian -32 there, 8 at its four neighbours, 0 at twenty others."""
    grey = np.zeros((7, 7), np.uint8)
    grey[3, 3] = 8
    assert sharpness(grey) == pytest.approx((32**2 + 4 * 8**2) / 25)
    assert sharpness(np.full((9, 9), 200, np.uint8)) == 0


def test_what_is_looked_at_is_never_endless(filmed):
    from hand_made import step

    first, last = window(step(100.0, "Fit it."))
    assert first == 99.5 and last <= first + 10


@pytest.mark.parametrize("content", [b"", b"no video at all", b"\x00\x00\x00\x18ftypmp42" + b"\x00" * 50])
def test_a_file_that_is_no_video_costs_one_note(filmed, content):
    examination = filmed(duration=1.0)
    examination.project.video.write_bytes(content)
    notes: list[str] = []
    made = seen(examination, notes)
    assert made.footage is None and not made.stills
    assert len(notes) == 1 and notes[0].startswith("video.mp4: ") and "\n" not in notes[0]


def test_a_video_that_breaks_off_costs_notes_and_no_fault(filmed):
    examination = filmed(ending=".mkv")
    video = examination.project.video
    video.write_bytes(video.read_bytes()[: video.stat().st_size // 3])
    notes: list[str] = []
    made = seen(examination, notes)
    assert made.footage is not None and 2 not in made.stills
    assert len(notes) == 1 and notes[0].startswith("video.mkv: there is no picture of step ")


def test_a_damaged_stretch_costs_only_the_stills_that_lie_in_it(filmed):
    examination = filmed(duration=20.0, starts=(1.0, 8.0, 15.0), ending=".mkv")
    video = examination.project.video
    data = bytearray(video.read_bytes())
    third = len(data) // 3
    data[third : 2 * third] = bytes(third)
    video.write_bytes(data)
    notes: list[str] = []
    stills = seen(examination, notes).stills
    assert 1 in stills and 2 not in stills
    assert len(notes) == 1 and "video.mkv: there is no picture of step 2" in notes[0]


def test_sound_alone_is_no_video(tmp_path):
    import av

    path = tmp_path / "sound.mp4"
    with av.open(str(path), "w") as out:
        stream = out.add_stream("aac", rate=16000, layout="mono")
        frame = av.AudioFrame.from_ndarray(np.zeros((1, 1024), np.float32), format="fltp", layout="mono")
        frame.sample_rate = 16000
        out.mux(stream.encode(frame))
        out.mux(stream.encode())
    with pytest.raises(InputError, match="there is no picture in it"):
        look_at(path)
