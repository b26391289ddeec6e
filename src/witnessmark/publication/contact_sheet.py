"""contact_sheet.jpg: the stills of all steps on one picture, to see at a glance which want another one."""

from io import BytesIO

from PIL import Image, ImageDraw

from witnessmark.procedure.model import Step
from witnessmark.proof.wording import clock
from witnessmark.publication.escape import printable
from witnessmark.publication.lettering import drawable, font, wrapped
from witnessmark.publication.manuscript import Manuscript, Still

ACROSS = 4
PICTURE = (360, 203)
"""Pixels: width and height into which a still is fitted."""
GAP, LETTERS, LINES = 24, 18, 3
PAPER, EMPTY, INK, SOFT = "#fbfaf6", "#e4e0d6", "#1c1f21", "#5a6065"
QUALITY = 85


def contact_sheet(manuscript: Manuscript) -> bytes:
    """The sheet as JPEG: each step's number, time, still and the beginning of its text."""
    steps = dict(enumerate(manuscript.examination.procedure.steps, 1))
    across = min(ACROSS, len(steps))
    down = -(-len(steps) // across)
    cell = PICTURE[0] + GAP, PICTURE[1] + GAP + (LINES + 1) * round(LETTERS * 1.3)
    sheet = Image.new("RGB", (GAP + across * cell[0], GAP + down * cell[1]), PAPER)
    for place, (number, step) in enumerate(steps.items()):
        corner = GAP + place % across * cell[0], GAP + place // across * cell[1]
        _draw(sheet, corner, number, step, manuscript.stills.get(number))
    file = BytesIO()
    sheet.save(file, "JPEG", quality=QUALITY, optimize=True)
    return file.getvalue()


def _draw(sheet: Image.Image, corner: tuple[int, int], number: int, step: Step, still: Still | None) -> None:
    left, top = corner
    draw = ImageDraw.Draw(sheet)
    draw.rectangle((left, top, left + PICTURE[0] - 1, top + PICTURE[1] - 1), fill=EMPTY)
    if still is not None:
        with Image.open(BytesIO(still.small)) as picture:
            picture.thumbnail(PICTURE, Image.Resampling.LANCZOS)
            at = left + (PICTURE[0] - picture.width) // 2, top + (PICTURE[1] - picture.height) // 2
            sheet.paste(picture, at)
    else:
        draw.text((left + PICTURE[0] // 2, top + PICTURE[1] // 2), "no picture", SOFT, font(LETTERS), anchor="mm")
    line = round(LETTERS * 1.3)
    told = clock(still.time if still else step.start)
    draw.text((left, top + PICTURE[1] + 6), f"{number}   at {told}", SOFT, font(LETTERS))
    lines = wrapped(drawable(printable(step.text)), LETTERS, PICTURE[0])
    if len(lines) > LINES:
        lines = [*lines[: LINES - 1], f"{lines[LINES - 1]}…"]
    for row, text in enumerate(lines, 1):
        draw.text((left, top + PICTURE[1] + 6 + row * line), text, INK, font(LETTERS))
