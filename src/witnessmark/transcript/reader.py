"""Reading a captions file whatever its format, and refusing what is no captions file in one line."""

from pathlib import Path

from witnessmark.errors import InputError
from witnessmark.size_limit import check_file, check_size
from witnessmark.transcript.assembly import assemble
from witnessmark.transcript.base import CaptionFormat, FormatError
from witnessmark.transcript.encoding import decode
from witnessmark.transcript.formats import FORMATS
from witnessmark.transcript.model import Transcript

_KNOWN = ", ".join(each.NAME for each in FORMATS)


def read_transcript(path: Path) -> Transcript:
    """The transcript of a captions file.

    Raises InputError where it is missing, unreadable, too large, or not captions.
    """
    name = str(path)
    if not path.exists():
        raise InputError(name, "there is no such file", "check the name of the captions file")
    if not path.is_file():
        raise InputError(name, "this is not a file", "name the captions file itself")
    try:
        check_file(path, name, "captions")
        return parse_transcript(path.read_bytes(), name)
    except OSError as error:
        raise InputError(name, f"cannot be read ({error.strerror})", "check the file and its permissions") from error


def parse_transcript(data: bytes, name: str) -> Transcript:
    """The transcript of the bytes of a captions file; name is what errors call it.

    Raises InputError where it is not captions or has no words.
    """
    check_size(len(data), name, "captions")
    text, notes = decode(data, name)
    if not text.strip("\ufeff \t\n\f"):
        raise InputError(name, "the file is empty", "export the captions again")
    found = next((each for each in FORMATS if each.recognises(text)), None)
    if found is None:
        raise _not_captions(text, name)
    try:
        captions = found.read(text)
    except FormatError as error:
        raise InputError(name, f"{found.NAME} {error.problem}", error.remedy) from error
    transcript = assemble(found.NAME, captions)
    if not transcript.words:
        raise _wordless(found, transcript, name)
    return Transcript(transcript.format, transcript.cues, transcript.words, (*notes, *transcript.notes))


def _not_captions(text: str, name: str) -> InputError:
    if "-->" in text[:10_000]:
        problem = "has WebVTT times but does not begin with WEBVTT"
        return InputError(name, problem, "put WEBVTT alone on line 1 and an empty line below it")
    problem = f"this is not captions in a known form ({_KNOWN})"
    return InputError(name, problem, "export the captions as WebVTT or SubRip")


def _wordless(found: CaptionFormat, transcript: Transcript, name: str) -> InputError:
    if transcript.notes:
        first = transcript.notes[0]
        problem = f"no words could be read from this {found.NAME} file (line {first.line}: {first.message})"
        return InputError(name, problem, "mend that line")
    return InputError(name, f"this {found.NAME} file holds no spoken words", "export the captions again")
