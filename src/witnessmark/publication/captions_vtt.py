"""captions.corrected.vtt: the captions with what the creator accepted put right, for players on the web."""

from witnessmark.publication.caption_cues import corrected_cues
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import webvtt


def captions_vtt(manuscript: Manuscript) -> str:
    """The text of captions.corrected.vtt."""
    return webvtt(corrected_cues(manuscript.examination))
