"""Correction cards: transparent pictures of the video's size, to be laid over it while the words are said."""

from collections.abc import Mapping
from io import BytesIO

from PIL import Image, ImageDraw

from witnessmark.publication.corrections import Correction, corrections
from witnessmark.publication.lettering import drawable, font, wrapped
from witnessmark.publication.manuscript import Manuscript

USUAL_SIZE = (1920, 1080)
"""Pixels, where there is no video."""
MARGIN = 0.05
"""Share of width and height kept free on each side (common practice: lettering in the central 90 %)."""
CAPTIONS_BELOW = 0.2
"""Share of the height kept free at the foot, where players put captions (common practice)."""
PANEL, STRIPE, HEADING, LETTERS = (16, 19, 21, 240), (255, 196, 0, 255), (255, 196, 0, 255), (255, 255, 255, 255)
"""Red, green, blue, opacity. The panel is near black, so that the lettering stands out from any picture."""
LARGEST, SMALLEST, MOST_LINES = 1 / 15, 1 / 40, 3
"""Size of the letters as a share of the shorter side of the video; lines before they are made smaller."""


def cards(manuscript: Manuscript) -> Mapping[str, bytes]:
    """The cards as PNG, name to content, one for each correction."""
    footage = manuscript.footage
    size = (footage.width, footage.height) if footage else USUAL_SIZE
    return {each.name: card_png(each, size) for each in corrections(manuscript.examination.findings)}


def card_png(correction: Correction, size: tuple[int, int]) -> bytes:
    """One card. size: width and height in pixels."""
    file = BytesIO()
    draw_card(drawable(correction.matter), size).save(file, "PNG", optimize=False, compress_level=9)
    return file.getvalue()


def draw_card(text: str, size: tuple[int, int]) -> Image.Image:
    """The picture of a card: a panel with a stripe of paint, the word "Correction" small and the text large."""
    width, height = size
    picture = Image.new("RGBA", size, (0, 0, 0, 0))
    left, right = round(width * MARGIN), round(width * (1 - MARGIN))
    foot = round(height * (1 - CAPTIONS_BELOW))
    letters, lines = _fitted(text, min(size), right - left)
    small, pad, stripe = max(1, round(letters * 0.55)), round(letters * 0.6), max(2, round(letters * 0.22))
    line_height = round(letters * 1.25)
    top = max(round(height * MARGIN), foot - 2 * pad - round(small * 1.6) - line_height * len(lines))
    widest = max(font(letters).getlength(line) for line in lines)
    edge = min(right, left + stripe + 2 * pad + round(max(widest, font(small).getlength("Correction"))))
    draw = ImageDraw.Draw(picture)
    draw.rectangle((left, top, edge - 1, foot - 1), fill=PANEL)
    draw.rectangle((left, top, left + stripe - 1, foot - 1), fill=STRIPE)
    draw.text((left + stripe + pad, top + pad), "Correction", HEADING, font(small))
    for number, line in enumerate(lines):
        at = (left + stripe + pad, top + pad + round(small * 1.6) + number * line_height)
        draw.text(at, line, LETTERS, font(letters))
    return picture


def _fitted(text: str, shorter: int, width: int) -> tuple[int, list[str]]:
    """Size of the letters and the lines: the largest that need few lines and stay inside the panel."""
    largest, smallest = max(1, round(shorter * LARGEST)), max(1, round(shorter * SMALLEST))
    for letters in range(largest, smallest - 1, -1):
        room = width - round(letters * 0.22) - 2 * round(letters * 0.6)
        lines = wrapped(text, letters, room)
        if len(lines) <= MOST_LINES and all(font(letters).getlength(line) <= room for line in lines):
            break
    return letters, lines
