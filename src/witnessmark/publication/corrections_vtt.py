"""corrections.vtt: the on-screen corrections as a captions track that a viewer can switch on."""

import re
import textwrap

from witnessmark.publication.caption_layout import LONGEST_LINE
from witnessmark.publication.corrections import corrections
from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import TextCue, webvtt

_FIGURE = re.compile(r"(?<=\d) (?=[^\W\d])")


def corrections_vtt(manuscript: Manuscript) -> str:
    """The text of corrections.vtt: each card from its in time to its out time; no cue where nothing is corrected."""
    return webvtt(
        TextCue(card.start, card.end, _lines(card.text)) for card in corrections(manuscript.examination.findings)
    )


def _lines(text: str) -> tuple[str, ...]:
    """The text in lines; a figure stays with its unit."""
    kept = _FIGURE.sub("\u00a0", printable(text))
    lines = textwrap.wrap(kept, LONGEST_LINE, break_long_words=False)
    return tuple(line.replace("\u00a0", " ") for line in lines)
