"""What reading captions gives: words with times, in the order they were said."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Word:
    """One written word of the captions. start, end: seconds from the start of the recording. cue: index into Transcript.cues."""

    text: str
    start: float
    end: float
    cue: int


@dataclass(frozen=True, slots=True)
class Cue:
    """One caption as a viewer would see it once: start and end in seconds, text without markup, line breaks kept as \\n."""

    start: float
    end: float
    text: str


@dataclass(frozen=True, slots=True)
class ReadingNote:
    """Something odd in the captions file that reading could go on from.

    line: 1-based line number in the file. lost: words that are left out for it, cut short; empty where none are.
    """

    line: int
    message: str
    lost: str = ""


@dataclass(frozen=True)
class Transcript:
    """A whole recording's words. format: name of the caption form. duration: end of the last word, seconds."""

    format: str
    cues: tuple[Cue, ...]
    words: tuple[Word, ...]
    notes: tuple[ReadingNote, ...] = ()

    @property
    def lost(self) -> tuple[ReadingNote, ...]:
        """The notes on words that are left out: whatever was said there is not read."""
        return tuple(note for note in self.notes if note.lost)

    @property
    def duration(self) -> float:
        """Seconds from the start of the recording to the end of the last word; 0.0 where there is none."""
        return max((word.end for word in self.words), default=0.0)
