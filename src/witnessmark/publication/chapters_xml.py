"""chapters.xml: chapters as Matroska tools take them.

mkvmerge -o video_with_chapters.mkv --chapters chapters.xml video.mp4
"""

import hashlib
import re
from xml.etree import ElementTree as ET

from witnessmark.publication.chapters import ChapterSpan, chapter_spans
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import time_code

LANGUAGE = ("eng", "en")
"""ISO 639-2 and BCP 47, as the Matroska specification has a ChapterDisplay carry both."""

_NOT_XML = re.compile("[\ud800-\udfff\ufffe\uffff]")


def chapters_xml(manuscript: Manuscript) -> str:
    """The text of chapters.xml (RFC 9559, section 5.1.7, in the XML form of mkvmerge). Each UID is made of content."""
    spans = chapter_spans(manuscript)
    root = ET.Element("Chapters")
    edition = ET.SubElement(root, "EditionEntry")
    _add(edition, "EditionUID", _uid("edition", *(repr(span) for span in spans)))
    for span in spans:
        _add_atom(edition, span)
    ET.indent(root, " ")
    text = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE Chapters SYSTEM "matroskachapters.dtd">\n{text}\n'


def _add_atom(edition: ET.Element, span: ChapterSpan) -> None:
    atom = ET.SubElement(edition, "ChapterAtom")
    _add(atom, "ChapterUID", _uid("chapter", str(span.start), span.title))
    _add(atom, "ChapterTimeStart", f"{time_code(span.start)}000000")
    _add(atom, "ChapterTimeEnd", f"{time_code(span.end)}000000")
    display = ET.SubElement(atom, "ChapterDisplay")
    _add(display, "ChapterString", span.title)
    for name, tag in zip(("ChapterLanguage", "ChapLanguageIETF"), LANGUAGE, strict=True):
        _add(display, name, tag)


def _add(parent: ET.Element, name: str, text: str) -> None:
    ET.SubElement(parent, name).text = _NOT_XML.sub("", text)


def _uid(*content: str) -> str:
    """A number from 1 to 2^63 that only this content has."""
    digest = hashlib.sha256("\x00".join(content).encode("utf-8", "replace")).digest()
    return str(int.from_bytes(digest[:8], "big") % 2**63 + 1)
