"""Captions in: one module a format, roll-up captions, word times."""

from witnessmark.transcript.model import Cue, ReadingNote, Transcript, Word
from witnessmark.transcript.reader import parse_transcript, read_transcript

__all__ = ["Cue", "ReadingNote", "Transcript", "Word", "parse_transcript", "read_transcript"]
