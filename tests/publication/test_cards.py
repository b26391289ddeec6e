from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

pytest.importorskip("PIL")

from PIL import Image

from witnessmark.publication.cards import CAPTIONS_BELOW, LETTERS, MARGIN, PANEL, USUAL_SIZE, cards, draw_card
from witnessmark.publication.lettering import drawable, font, wrapped

SIZES = [(1920, 1080), (1080, 1920), (1280, 720), (3840, 2160), (640, 480), (320, 180)]
LONG = "front brake hose banjo bolt and both of its copper washers, each side, 108 N·m (80 lbf·ft) + 90°"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("text", ["DOT 4", LONG])
def test_a_card_keeps_the_margins_and_the_room_of_the_captions(size, text):
    width, height = size
    box = draw_card(text, size).getbbox()
    assert box is not None
    left, top, right, foot = box
    assert left >= int(width * MARGIN) and right <= round(width * (1 - MARGIN))
    assert top >= int(height * MARGIN) and foot <= round(height * (1 - CAPTIONS_BELOW))


@pytest.mark.parametrize("size", SIZES)
def test_the_panel_is_wider_than_its_lettering(size):
    picture = draw_card(LONG, size)
    right = picture.getbbox()[2]
    white = [
        x
        for x in range(size[0])
        for y in range(0, size[1], 1 if size[1] < 800 else 3)
        if picture.getpixel((x, y)) == LETTERS
    ]
    assert max(white) < right - 2


def luminance(colour):
    """Relative luminance, WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance"""
    parts = [each / 255 for each in colour]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return sum(share * c for share, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


@pytest.mark.parametrize("behind", ["white", "black", "yellow", "red", "#808080"])
def test_the_lettering_stands_out_from_any_picture(behind):
    """WCAG 2.2 criterion 1.4.6 asks for a contrast of 7 : 1 at least."""
    picture = Image.new("RGB", (2, 2), behind)
    picture.paste(PANEL[:3], (0, 0, 2, 2), Image.new("L", (2, 2), PANEL[3]))
    contrast = (luminance(LETTERS[:3]) + 0.05) / (luminance(picture.getpixel((0, 0))) + 0.05)
    assert contrast >= 7


def test_cards_are_png_of_the_usual_size_the_same_every_time(manuscript):
    once, again = cards(manuscript()), cards(manuscript())
    assert list(once) == ["cards/c01.png"] and once == again
    with Image.open(BytesIO(once["cards/c01.png"])) as picture:
        assert (picture.format, picture.size, picture.mode) == ("PNG", USUAL_SIZE, "RGBA")
        assert picture.getpixel((5, 5))[3] == 0


def test_what_the_font_lacks_is_written_another_way():
    assert drawable("0–0.05 mm, 10 kΩ, é, ≥ 3") == "0-0.05 mm, 10 kohm, e, >= 3"
    assert drawable("108 N·m + 90°") == "108 N·m + 90°"
    assert drawable("中") == "?"


@given(st.text(max_size=20))
def test_no_text_has_a_letter_that_the_font_lacks(text):
    nothing = font(40).getmask("\uffff")
    for letter in drawable(text):
        mask = font(40).getmask(letter)
        assert letter == " " or (mask.size, bytes(mask)) != (nothing.size, bytes(nothing))


@given(st.text("abc de", max_size=60), st.integers(20, 300))
def test_wrapping_loses_no_word(text, width):
    assert " ".join(wrapped(text, 20, width)).split() == text.split()
