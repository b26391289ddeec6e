"""captions.corrected.vtt: the captions with what the creator accepted put right, for players on the web."""

from witnessmark.publication.caption_changes import caption_changes
from witnessmark.publication.caption_cues import caption_cues
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import webvtt


def captions_vtt(manuscript: Manuscript) -> str:
    """The text of captions.corrected.vtt."""
    examination = manuscript.examination
    return webvtt(caption_cues(examination.reading.speech.transcript, caption_changes(examination).made))
