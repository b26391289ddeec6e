"""A still for each step: the sharpest picture of the video while the step is told and done."""

from collections.abc import Collection, Iterator
from contextlib import suppress
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

import av
import numpy as np
from PIL import Image, ImageOps

from witnessmark.errors import InputError
from witnessmark.procedure.model import Step
from witnessmark.proof.wording import clock
from witnessmark.publication.footage import MICROSECONDS, begins, opened, upright_size
from witnessmark.publication.manuscript import Manuscript, Still
from witnessmark.publication.note import Note

if TYPE_CHECKING:
    from av.container import InputContainer
    from av.video.frame import VideoFrame
    from av.video.stream import VideoStream

Grey = np.ndarray[tuple[int, ...], np.dtype[np.uint8]]
"""Grey levels, height by width."""

BEFORE, AFTER, LONGEST = 0.5, 2.0, 10.0
"""Seconds looked at before the words of a step begin and after they end, as hands follow words; and at most in all."""
HELD = 2.0
"""Seconds for which a picture is taken to stand where none follows it."""
APART = 0.2
"""Seconds between two pictures that are compared."""
WIDEST, WIDEST_SMALL = 1280, 720
"""Pixels."""
QUALITY, QUALITY_SMALL = 88, 80
"""Of the JPEG, on libjpeg's scale to 100."""
OWN_FORMATS = ("JPEG", "PNG", "WEBP")
"""What a person may put in a still's place, as Pillow names it."""
MEASURED_WIDTH = 640
"""Pixels to which a picture is brought before its sharpness is measured, so that noise counts for less."""


def find_stills(manuscript: Manuscript, note: Note) -> dict[int, Still]:
    """The still of each step, by its number from 1; a step that lies outside the video has none, and a note tells so.

    Raises InputError where the video cannot be read.
    """
    footage = manuscript.footage
    if footage is None:
        return {}
    stills: dict[int, Still] = {}
    steps = dict(enumerate(manuscript.examination.procedure.steps, 1))
    inside = {number: step for number, step in steps.items() if step.start < footage.duration}
    with opened(footage.path) as (container, stream):
        for number, step in inside.items():
            with suppress(av.FFmpegError):
                found = _sharpest(container, stream, *window(step))
                if found is not None:
                    stills[number] = _still(number, step, *found, upright_size(found[1], stream))
    name, end = footage.path.name, clock(footage.duration) if inside != steps else ""
    _tell(note, steps.keys() - inside.keys(), f"{name}: there is no picture of step {{}}: the video ends at {end}")
    _tell(
        note, inside.keys() - stills.keys(), f"{name}: there is no picture of step {{}}: the video cannot be read there"
    )
    return stills


def _tell(note: Note, steps: Collection[int], line: str) -> None:
    if steps:
        note(line.format(", ".join(map(str, sorted(steps)))))


def window(step: Step) -> tuple[float, float]:
    """The seconds of the video that are looked at for a step, first and last."""
    first = max(0.0, step.start - BEFORE)
    return first, min(step.end + AFTER, first + LONGEST)


def sharpness(grey: Grey) -> float:
    """How sharp a picture is: the variance of its Laplacian, in grey levels squared.

    grey: height by width, 0 to 255. The measure is that of Pech-Pacheco and others, "Diatom autofocusing in brightfield
    microscopy: a comparative study", ICPR 2000 (from memory).
    """
    g = grey.astype(np.float32)
    laplacian = g[:-2, 1:-1] + g[2:, 1:-1] + g[1:-1, :-2] + g[1:-1, 2:] - 4 * g[1:-1, 1:-1]
    return float(laplacian.var(dtype=np.float64)) if laplacian.size else 0.0


def _sharpest(
    container: "InputContainer", stream: "VideoStream", first: float, last: float
) -> tuple[float, "VideoFrame"] | None:
    """The sharpest picture between two seconds and its second; the earlier of two alike. None where there is none."""
    best: tuple[float, float, VideoFrame] | None = None
    compared = -APART
    for second, frame in _between(container, stream, first, last):
        # Where pictures stand further apart than they are compared, each is.
        if second - compared < APART - 0.001:
            continue
        compared = second
        sharp = sharpness(_grey(frame))
        if best is None or sharp > best[0]:
            best = sharp, second, frame
    return best[1:] if best else None


def _between(
    container: "InputContainer", stream: "VideoStream", first: float, last: float
) -> Iterator[tuple[float, "VideoFrame"]]:
    """The pictures shown between two seconds, decoded from the key picture before them; at least the one shown at `first`."""
    zero = begins(container)
    container.seek(round((first + zero) * MICROSECONDS))
    shown: tuple[float, VideoFrame] | None = None
    for frame in container.decode(stream):
        second = (frame.time or 0.0) - zero
        if second < first:
            # A picture may stand for a while; after a longer gap, what was there is lost.
            shown = (second, frame) if first - second <= HELD else None
            continue
        if shown is not None and second > first:
            yield first, shown[1]
        shown = None
        if second > last:
            return
        yield second, frame
    if shown is not None:
        yield first, shown[1]


def _grey(frame: "VideoFrame") -> Grey:
    width = min(frame.width, MEASURED_WIDTH)
    height = max(1, round(frame.height * width / frame.width))
    return frame.reformat(width=width, height=height, format="gray").to_ndarray().astype(np.uint8)


def _still(number: int, step: Step, second: float, frame: "VideoFrame", size: tuple[int, int]) -> Still:
    picture = Image.fromarray(frame.to_ndarray(format="rgb24"))
    upright = picture.rotate(frame.rotation, expand=True) if frame.rotation else picture
    large, small = _fitted(size, WIDEST), _fitted(size, WIDEST_SMALL)
    return Still(
        path=f"stills/step{number:02d}.jpg",
        time=second,
        alt=f"Step {number}: {step.text}",
        jpeg=_jpeg(upright, large, QUALITY),
        small=_jpeg(upright, small, QUALITY_SMALL),
        width=small[0],
        height=small[1],
    )


def replaced_by(still: Still, path: Path) -> Still:
    """A still that is shown as the picture which a person put in its place. Raises InputError where that is none."""
    try:
        with Image.open(path, formats=OWN_FORMATS) as picture:
            upright = ImageOps.exif_transpose(picture).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        problem, remedy = "this is no picture that can be read", "put a JPEG file there, or delete it"
        raise InputError(str(path), problem, remedy) from None
    size = _fitted(upright.size, WIDEST_SMALL)
    return replace(still, small=_jpeg(upright, size, QUALITY_SMALL), width=size[0], height=size[1])


def _fitted(size: tuple[int, int], widest: int) -> tuple[int, int]:
    """A size, or one no wider than `widest` pixels."""
    scale = min(1.0, widest / size[0])
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def _jpeg(picture: Image.Image, size: tuple[int, int], quality: int) -> bytes:
    file = BytesIO()
    resized = picture if picture.size == size else picture.resize(size, Image.Resampling.LANCZOS)
    resized.save(file, "JPEG", quality=quality, optimize=True)
    return file.getvalue()
