"""chapters.vtt: chapters as a WebVTT track of the kind `chapters`, for a player on a web page."""

from witnessmark.publication.chapters import chapter_spans
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import TextCue, webvtt


def chapters_vtt(manuscript: Manuscript) -> str:
    """The text of chapters.vtt: one cue a chapter (W3C WebVTT, "chapter title text")."""
    return webvtt(TextCue(span.start, span.end, (span.title,)) for span in chapter_spans(manuscript))
