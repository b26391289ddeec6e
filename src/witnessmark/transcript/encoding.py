"""From the bytes of a captions file to text with \\n line ends."""

import codecs
import re

from witnessmark.errors import InputError
from witnessmark.transcript.model import ReadingNote

_BYTE_ORDER_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_BINARY_STARTS = (
    (0, b"\x89PNG", "a PNG picture"),
    (0, b"\xff\xd8\xff", "a JPEG picture"),
    (0, b"GIF8", "a GIF picture"),
    (0, b"%PDF-", "a PDF document"),
    (0, b"PK\x03\x04", "a ZIP archive"),
    (0, b"\x1f\x8b", "a gzip archive"),
    (0, b"\x1a\x45\xdf\xa3", "a Matroska or WebM video"),
    (0, b"OggS", "an Ogg recording"),
    (0, b"RIFF", "a WAV or AVI recording"),
    (0, b"ID3", "an MP3 recording"),
    (4, b"ftyp", "an MP4 video"),
)
_CONTROL = re.compile(rb"[\x00-\x08\x0b\x0e-\x1f\x7f]")
_BEYOND_ASCII = re.compile(r"[^\x00-\x7f]+")
_SAMPLE = 65_536
_MOST_CONTROL = 0.05
"""Share of control characters above which a file is no text. The WebVTT standard allows NUL, so a few must pass."""


def decode(data: bytes, name: str) -> tuple[str, tuple[ReadingNote, ...]]:
    """The text of a file, without its byte order mark, line ends as \\n. Raises InputError where it is binary."""
    for at, start, kind in _BINARY_STARTS:
        if data[at : at + len(start)] == start:
            raise InputError(name, f"this is {kind}, not captions", "give the captions file that goes with it")
    text, notes = _text(data, name)
    return text.replace("\r\n", "\n").replace("\r", "\n").replace("\0", "\ufffd"), notes


def _text(data: bytes, name: str) -> tuple[str, tuple[ReadingNote, ...]]:
    for mark, encoding in _BYTE_ORDER_MARKS:
        if data.startswith(mark):
            return _decoded(data[len(mark) :], encoding)
    sample = data[:_SAMPLE]
    if encoding_without_mark := _utf16_without_mark(sample):
        return _decoded(data, encoding_without_mark)
    if len(_CONTROL.findall(sample)) > _MOST_CONTROL * len(sample):
        raise InputError(name, "this is a binary file, not captions", "give the captions as a text file")
    return _decoded(data, "utf-8")


def _decoded(data: bytes, encoding: str) -> tuple[str, tuple[ReadingNote, ...]]:
    try:
        return data.decode(encoding), ()
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        if encoding == "utf-8":
            mended = data.decode(encoding, "replace")
            if mended.count("\ufffd") > sum(map(len, _BEYOND_ASCII.findall(mended))) / 2:
                note = ReadingNote(line, "this is not UTF-8; the file was read as Windows-1252")
                return data.decode("cp1252", "replace"), (note,)
        note = ReadingNote(line, f"some characters are not {encoding.upper()}; each is shown as \ufffd")
        return data.decode(encoding, "replace"), (note,)


def _utf16_without_mark(sample: bytes) -> str | None:
    # Latin letters have a zero in every other byte: the high one, which comes second in little-endian order.
    even, odd = sample[0::2].count(0), sample[1::2].count(0)
    if not sample or even + odd < 0.3 * len(sample):
        return None
    if odd > 10 * even:
        return "utf-16-le"
    return "utf-16-be" if even > 10 * odd else None
