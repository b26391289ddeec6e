"""The caption formats, in the order in which they are asked whether a text is theirs."""

from witnessmark.transcript import bracketed, sbv, stamped, subrip, ttml, webvtt
from witnessmark.transcript.base import CaptionFormat

FORMATS: tuple[CaptionFormat, ...] = (webvtt, ttml, subrip, sbv, bracketed, stamped)
