"""chaptered.mp4, chaptered.mkv: a copy of the video with its chapters in it, nothing in it encoded anew."""

import shutil
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from witnessmark.errors import InputError
from witnessmark.publication.chapters import ChapterSpan, chapter_spans
from witnessmark.publication.footage import Footage, opened
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.note import Note

if TYPE_CHECKING:
    from av.container import InputContainer, OutputContainer

KINDS = {".mp4": "mp4", ".m4v": "mp4", ".mov": "mov", ".mkv": "matroska"}
"""Endings of files that can hold chapters, and their formats."""
MILLISECOND = Fraction(1, 1000)
ROOM = 1.02
"""How much larger than the video the copy may get."""


def with_chapters(manuscript: Manuscript, out: Path, scratch: Path, note: Note) -> dict[str, Path]:
    """The copy, name to finished file in `scratch`, a folder on the disk of `out`; nothing where it cannot be made."""
    project, footage = manuscript.examination.project, manuscript.footage
    if project.video is None:
        note("--with-video: there is no video; name it in repair.toml, key video")
        return {}
    if footage is None:
        note(f"--with-video: no copy of {project.video.name}; it could not be read, or the extra `video` is missing")
        return {}
    name = f"chaptered{footage.path.suffix.casefold()}"
    try:
        marks = _marks(manuscript, footage)
        _check(footage.path, out / name, scratch)
        remux(footage.path, scratch / name, marks)
    except InputError as why:
        note(f"{name} left out: {why}")
        return {}
    return {name: scratch / name}


def remux(video: Path, target: Path, marks: Sequence[ChapterSpan]) -> None:
    """Copy every stream of a video, and give the copy chapters.

    Raises InputError where the video cannot be copied.
    """
    import av

    with (
        opened(video) as (source, _),
        # Bit-exact: no time and no random number is written into the copy.
        av.open(str(target), "w", KINDS[target.suffix], options={"fflags": "+bitexact"}) as copy,
    ):
        copy.metadata.update(source.metadata)
        copy.set_chapters(
            [
                {
                    "id": number,
                    "start": mark.start,
                    "end": mark.end,
                    "time_base": MILLISECOND,
                    "metadata": {"title": mark.title},
                }
                for number, mark in enumerate(marks, 1)
            ]
        )
        _copy_packets(source, copy)


def _copy_packets(source: "InputContainer", copy: "OutputContainer") -> None:
    kept = {
        stream.index: copy.add_stream_from_template(stream)
        for stream in source.streams
        if stream.type in ("video", "audio", "subtitle")
    }
    for packet in source.demux([source.streams[index] for index in kept]):
        # The last packet of each stream is empty: it only tells that the stream ends.
        if packet.dts is not None:
            packet.stream = kept[packet.stream.index]
            copy.mux(packet)


def _marks(manuscript: Manuscript, footage: Footage) -> tuple[ChapterSpan, ...]:
    """The chapters inside the video, the last one to its end."""
    end = round(footage.duration * 1000) if footage.duration != float("inf") else None
    marks = [mark for mark in chapter_spans(manuscript) if end is None or mark.start < end]
    return (*marks[:-1], replace(marks[-1], end=end or marks[-1].end))


def _check(video: Path, target: Path, scratch: Path) -> None:
    if video.suffix.casefold() not in KINDS:
        known = ", ".join(KINDS)
        raise InputError(video.name, "this kind of file holds no chapters", f"export the video as one of {known}")
    if target.exists() and target.samefile(video):
        raise InputError(str(target), "this is the video itself", "name another folder with --out")
    if shutil.disk_usage(scratch).free < video.stat().st_size * ROOM:
        raise InputError(
            str(target.parent), "there is not enough room for a copy of the video", "make room on the disk"
        )
