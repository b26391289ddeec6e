"""Draws a small stand-in for the footage of a project: coloured shapes, the text of each step, sharp and blurred moments.

usage: python benchmarks/draw_video.py FOLDER [FILE]

Writes FOLDER/video.mp4, or FILE: as long as the captions, 320 by 180 pixels. While a step is told the picture is blurred but
for one second, so that it shows whether the sharp one is found. Everything in it is invented. Needs the extra `video`.
"""

import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import av
import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

SIZE = (320, 180)
RATE = 10
SHARP = 1.0
"""Seconds for which a moment is sharp, in its middle."""
PAINTS = ("#c0392b", "#2471a3", "#229954", "#b9770e", "#7d3c98", "#117a65")
TICKS = 1000
SOUND_RATE = 16000


@dataclass(frozen=True, slots=True)
class Moment:
    """What is shown from `start` to `end`, in seconds; blurred but in its middle."""

    start: float
    end: float
    text: str


def draw_video(
    path: Path,
    moments: Sequence[Moment],
    duration: float,
    *,
    size: tuple[int, int] = SIZE,
    sound: bool = True,
    rotated: int = 0,
    uneven: bool = False,
) -> None:
    """Draw a video.

    duration: seconds. rotated: degrees, counter-clockwise, that its file tells players to turn the picture by.
    uneven: a variable frame rate, the second half of each second at half the rate.
    """
    with av.open(str(path), "w", options={"fflags": "+bitexact"}) as out:
        stream = out.add_stream("mpeg4", rate=RATE)
        stream.width, stream.height, stream.pix_fmt = *size, "yuv420p"
        stream.codec_context.time_base = stream.time_base = Fraction(1, TICKS)
        stream.codec_context.gop_size = 5 * RATE
        stream.codec_context.bit_rate = 25_000
        if rotated:
            stream.set_display_rotation(rotated)
        audio = out.add_stream("aac", rate=SOUND_RATE, layout="mono") if sound else None
        if audio is not None:
            audio.codec_context.bit_rate = 12_000
        for second in times(duration, uneven):
            frame = av.VideoFrame.from_image(picture(moments, second, size))
            frame.pts, frame.time_base = round(second * TICKS), Fraction(1, TICKS)
            out.mux(stream.encode(frame))
        out.mux(stream.encode())
        if audio is not None:
            for hum in _hum(duration):
                out.mux(audio.encode(hum))
            out.mux(audio.encode())


def times(duration: float, uneven: bool = False) -> Iterator[float]:
    """The second of each picture."""
    for number in range(round(duration * RATE)):
        late = number % RATE >= RATE // 2
        if not (uneven and late and number % 2):
            yield number / RATE


def is_sharp(moment: Moment, second: float) -> bool:
    """Whether the picture of a moment is sharp at a second."""
    middle = (moment.start + moment.end) / 2
    return abs(second - middle) <= SHARP / 2


def picture(moments: Sequence[Moment], second: float, size: tuple[int, int]) -> Image.Image:
    """The picture at a second: the shape and the text of the moment, or the clock alone."""
    number, moment = next(
        ((n, each) for n, each in enumerate(moments) if each.start <= second < each.end), (-1, Moment(0, 0, ""))
    )
    image = Image.new("RGB", size, "#d8d4c8")
    draw = ImageDraw.Draw(image)
    font = ImageFont.load_default(14)
    if moment.text:
        _shape(number)(draw, size)
        draw.multiline_text((10, 10), _lines(moment.text, size[0] - 20, font), "black", font)
    draw.text((10, size[1] - 24), f"{int(second) // 60}:{int(second) % 60:02d}", "#5a6065", font)
    if moment.text and not is_sharp(moment, second):
        return image.filter(ImageFilter.GaussianBlur(3))
    return image


def _shape(number: int) -> Callable[[ImageDraw.ImageDraw, tuple[int, int]], None]:
    def drawn(draw: ImageDraw.ImageDraw, size: tuple[int, int]) -> None:
        width, height = size
        corners, paint = (width * 0.3, height * 0.4, width * 0.6, height * 0.85), PAINTS[number % len(PAINTS)]
        if number % 3 == 2:
            middle = ((corners[0] + corners[2]) / 2, (corners[1] + corners[3]) / 2, height * 0.22)
            draw.regular_polygon(middle, 6, fill=paint, outline="black")
        else:
            (draw.ellipse, draw.rectangle)[number % 3](corners, fill=paint, outline="black", width=2)

    return drawn


def _lines(text: str, width: int, font: ImageFont.FreeTypeFont) -> str:
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        lines = [*lines[:-1], longer] if font.getlength(longer) <= width else [*lines, word]
    return "\n".join(lines)


def _hum(duration: float) -> Iterator[av.AudioFrame]:
    """A soft hum of 110 Hz, in the pieces that the encoder takes."""
    piece = 1024
    for start in range(0, round(duration * SOUND_RATE), piece):
        at = np.arange(start, start + piece) / SOUND_RATE
        wave = (0.02 * np.sin(2 * np.pi * 110 * at)).astype(np.float32)
        frame = av.AudioFrame.from_ndarray(wave[np.newaxis], format="fltp", layout="mono")
        frame.sample_rate, frame.pts, frame.time_base = SOUND_RATE, start, Fraction(1, SOUND_RATE)
        yield frame


def main(folder: Path, path: Path) -> None:
    """Draw the video of a project."""
    from witnessmark.examination import examine

    examination = examine(folder)
    steps = sorted(examination.procedure.steps, key=lambda step: step.start)
    ends = [min(step.end + 2, after.start) for step, after in pairwise(steps)]
    ends += [step.end + 2 for step in steps[-1:]]
    moments = [Moment(step.start, end, step.text) for step, end in zip(steps, ends, strict=True)]
    draw_video(path, moments, examination.reading.speech.transcript.duration)
    print(f'wrote {path}; name it in {folder / "repair.toml"}: video = "{path.name}"')


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    where = Path(sys.argv[1])
    main(where, Path(sys.argv[2]) if len(sys.argv) == 3 else where / "video.mp4")
