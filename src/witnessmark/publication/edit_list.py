"""corrections.otio: a timeline for editing programs with a marker for each on-screen correction, and the same as EDL.

OpenTimelineIO (https://opentimelineio.readthedocs.io, schema Timeline.1) is an open format of the film trade.
"""

import opentimelineio as otio

from witnessmark.publication.corrections import Correction, corrections
from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript

USUAL_RATE = 25.0
"""Frames a second, where there is no video."""
RATES = (24000 / 1001, 24.0, 25.0, 30000 / 1001, 30.0, 50.0, 60000 / 1001, 60.0)
"""Frames a second that time code counts (SMPTE ST 12-1, from memory)."""
EDL = "cmx_3600"
TAIL = 1.0
"""Seconds kept behind the last marker, where the length of the video is not known."""


def edit_list(manuscript: Manuscript) -> dict[str, str]:
    """corrections.otio and, where the adapter for EDL is installed, corrections.edl."""
    timeline = timeline_of(manuscript)
    files = {"corrections.otio": f"{otio.adapters.write_to_string(timeline, 'otio_json')}\n"}
    if EDL in otio.adapters.available_adapter_names():
        files["corrections.edl"] = otio.adapters.write_to_string(_without_text(timeline), EDL)
    return files


def _without_text(timeline: otio.schema.Timeline) -> otio.schema.Timeline:
    """The same with markers that name their card only: EDL is in capitals, and a milliohm is no megohm."""
    plain = timeline.clone()
    for number, marker in enumerate(plain.tracks[0][0].markers, 1):
        marker.name = f"Correction {number}, {marker.metadata['witnessmark']['card']}"
    return plain


def timeline_of(manuscript: Manuscript) -> otio.schema.Timeline:
    """The video as one clip, with the markers on it. Its rate is the time code rate nearest to the video's."""
    project, footage = manuscript.examination.project, manuscript.footage
    rate = min(RATES, key=lambda each: abs(each - (footage.rate if footage else USUAL_RATE)))
    found = corrections(manuscript.examination.findings)
    whole = _span(0.0, _length(manuscript, found), rate)
    media = otio.schema.ExternalReference(project.video.name, whole) if project.video else None
    title = printable(project.title)
    named = printable(project.video.name) if project.video else title
    clip = otio.schema.Clip(named, media, whole)
    clip.markers.extend(_marker(each, rate) for each in found)
    timeline = otio.schema.Timeline(title, global_start_time=otio.opentime.RationalTime(0, rate))
    track = otio.schema.Track("Video", kind=otio.schema.TrackKind.Video)
    track.append(clip)
    timeline.tracks.append(track)
    return timeline


def _marker(correction: Correction, rate: float) -> otio.schema.Marker:
    matter = printable(correction.matter)
    marker = otio.schema.Marker(
        name=f"Correction {correction.number}: {matter}",
        marked_range=_span(correction.start / 1000, correction.end / 1000, rate),
        color=otio.schema.MarkerColor.RED,
        metadata={"witnessmark": {"finding": correction.findings[0].id, "card": correction.name}},
    )
    marker.comment = matter
    return marker


def _span(start: float, end: float, rate: float) -> otio.opentime.TimeRange:
    """Seconds as whole frames."""
    first, last = (otio.opentime.RationalTime(round(seconds * rate), rate) for seconds in (start, end))
    return otio.opentime.TimeRange(first, last - first)


def _length(manuscript: Manuscript, found: tuple[Correction, ...]) -> float:
    """Seconds: the video's, else up to the last words or the last marker."""
    footage = manuscript.footage
    if footage and footage.duration != float("inf"):
        return footage.duration
    spoken = manuscript.examination.reading.speech.transcript.duration
    return max([spoken, *(each.end / 1000 + TAIL for each in found)])
