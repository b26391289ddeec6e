"""The video that was filmed, as far as the writers need to know it: its size, its rate and how long it is."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from witnessmark.errors import InputError

if TYPE_CHECKING:
    from av.container import InputContainer
    from av.video.frame import VideoFrame
    from av.video.stream import VideoStream

MICROSECONDS = 1_000_000
"""In which a container tells when it begins and how long it is."""


@dataclass(frozen=True, slots=True)
class Footage:
    """A video. width, height: pixels as it is shown, turned upright. rate: frames a second, on average. duration: seconds."""

    path: Path
    width: int
    height: int
    rate: float
    duration: float


def look_at(path: Path) -> Footage:
    """What a video is. Raises InputError where it cannot be read or has no picture."""
    with opened(path) as (container, stream):
        frame = next(container.decode(stream), None)
        if frame is None:
            raise InputError(path.name, "the video has no picture that can be read", "export it again")
        width, height = upright_size(frame, stream)
        rate = stream.average_rate or stream.guessed_rate or 25
        return Footage(path, width, height, float(rate), _duration(container, stream))


@contextmanager
def opened(path: Path) -> Iterator[tuple["InputContainer", "VideoStream"]]:
    """A video opened, and its first moving picture. Raises InputError where there is none, also while it is read."""
    import av

    try:
        with av.open(str(path), metadata_errors="replace") as container:
            yield container, _picture(path, container)
    except (av.FFmpegError, OSError) as why:
        problem = f"the video cannot be read ({why.strerror})" if why.strerror else "the video cannot be read"
        raise InputError(path.name, problem, "check the file, or export it again") from None


def upright_size(frame: "VideoFrame", stream: "VideoStream") -> tuple[int, int]:
    """Width and height in pixels as a frame is shown: its pixels made square and turned as its maker marked it."""
    width = round(frame.width * float(stream.sample_aspect_ratio or 1))
    return (frame.height, width) if frame.rotation % 180 else (width, frame.height)


def begins(container: "InputContainer") -> float:
    """The time stamp, in seconds, of what a player shows as 0:00."""
    return (container.start_time or 0) / MICROSECONDS


def _picture(path: Path, container: "InputContainer") -> "VideoStream":
    from av.stream import Disposition

    moving = [each for each in container.streams.video if not each.disposition & Disposition.attached_pic]
    if not moving:
        raise InputError(path.name, "there is no picture in it", "name the video itself in repair.toml, key video")
    moving[0].thread_type = "AUTO"
    return moving[0]


def _duration(container: "InputContainer", stream: "VideoStream") -> float:
    """Seconds; endless where the file does not tell, as a stream that was cut off may not."""
    if stream.duration is not None and stream.time_base is not None:
        return float(stream.duration * stream.time_base)
    return container.duration / MICROSECONDS if container.duration else float("inf")
