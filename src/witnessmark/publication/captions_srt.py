"""captions.corrected.srt: the same captions as SubRip, for upload pages and players that take nothing else."""

from witnessmark.publication.caption_cues import corrected_cues
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import subrip


def captions_srt(manuscript: Manuscript) -> str:
    """The text of captions.corrected.srt."""
    return subrip(corrected_cues(manuscript.examination))
