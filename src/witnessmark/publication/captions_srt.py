"""captions.corrected.srt: the same captions as SubRip, for upload pages and players that take nothing else."""

from witnessmark.publication.caption_changes import caption_changes
from witnessmark.publication.caption_cues import caption_cues
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import subrip


def captions_srt(manuscript: Manuscript) -> str:
    """The text of captions.corrected.srt."""
    examination = manuscript.examination
    return subrip(caption_cues(examination.reading.speech.transcript, caption_changes(examination).made))
