"""TTML2 and its profile IMSC1 (W3C): XML whose body, div, p and span elements carry begin, dur and end, nested.

The time of an element counts from its parent's begin (or, in a timeContainer="seq", from the end of the element
before it) and never passes its parent's end.
XML is read with defusedxml: no entity and no other file can be drawn in.
"""

import re
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any
from xml.sax import SAXParseException
from xml.sax.handler import ContentHandler, feature_namespaces
from xml.sax.xmlreader import InputSource

import defusedxml.sax
from defusedxml.common import DefusedXmlException

from witnessmark.transcript.base import Captions, FormatError, Piece, TimedText, shortened
from witnessmark.transcript.model import ReadingNote
from witnessmark.transcript.ttml_time import TimeBase, time_base

NAME = "TTML"

_ROOT = re.compile(r"<(?:[A-Za-z_][\w.-]{0,40}:)?tt[\s>]")
_TIMED = frozenset({"body", "div", "p", "span"})
_BLANKS = re.compile(r"[ \t\n\r]+")


def recognises(text: str) -> bool:
    """Whether text is XML with a tt element near its start."""
    start = text[:8192].lstrip("\ufeff \t\n\r")
    return start.startswith("<") and _ROOT.search(start) is not None


def read(text: str) -> Captions:
    """One caption for each p with text, in document order.

    Raises FormatError where the XML is not well formed or draws in entities.
    """
    parser = defusedxml.sax.make_parser()
    parser.setFeature(feature_namespaces, True)
    handler = _Handler()
    parser.setContentHandler(handler)
    source = InputSource()
    source.setByteStream(BytesIO(text.lstrip("\ufeff \t\n\r").encode("utf-8", "replace")))
    source.setEncoding("utf-8")
    try:
        parser.parse(source)
    except SAXParseException as error:
        problem = f"line {error.getLineNumber()}: XML is not well formed ({error.getMessage()})"
        raise FormatError(problem, "mend that line") from error
    except DefusedXmlException as error:
        raise FormatError("the XML declares entities", "take the entity declarations out") from error
    return Captions(tuple(handler.cues), tuple(handler.notes))


@dataclass(slots=True)
class _Element:
    """An open element.

    begin, end: seconds. own_time, timed: whether it, or it or an ancestor, gives a time. span: begin and end of the
    innermost span with its own time. previous_end: where a sequence of children has come to, None once unknown.
    """

    name: str
    begin: float
    end: float | None
    timed: bool
    sequence: bool
    keep_blanks: bool
    own_time: bool = False
    previous_end: float | None = None
    span: tuple[float | None, float | None] = (None, None)


@dataclass(slots=True)
class _Paragraph:
    line: int
    pieces: list[Piece] = field(default_factory=list)


class _Handler(ContentHandler):
    def __init__(self) -> None:
        super().__init__()
        self.cues: list[TimedText] = []
        self.notes: list[ReadingNote] = []
        self.base = TimeBase()
        self.open = [_Element("", 0.0, None, False, False, False)]
        self.paragraph: _Paragraph | None = None
        self.locator: Any = None

    def setDocumentLocator(self, locator: Any) -> None:
        self.locator = locator

    def startElementNS(self, name: tuple[str | None, str], qname: str | None, attrs: Any) -> None:  # noqa: ARG002
        local = name[1]
        attributes = {key[1]: value for key, value in attrs.items()}
        if local == "tt":
            self._set_time_base(attributes)
        self.open.append(self._timed_element(local, attributes))
        if local == "p":
            self.paragraph = _Paragraph(self._line)
        elif local == "br":
            self._add("\n")

    def endElementNS(self, name: tuple[str | None, str], qname: str | None) -> None:  # noqa: ARG002
        element = self.open.pop()
        if element.name in _TIMED:
            self.open[-1].previous_end = element.end
        if element.name == "p" and self.paragraph:
            self._close(element, self.paragraph)
            self.paragraph = None

    def characters(self, content: str) -> None:
        element = self.open[-1]
        if element.name in ("p", "span"):
            self._add(content if element.keep_blanks else _BLANKS.sub(" ", content))

    @property
    def _line(self) -> int:
        return int(self.locator.getLineNumber()) if self.locator else 0

    def _set_time_base(self, attributes: dict[str, str]) -> None:
        try:
            self.base = time_base(attributes)
        except ValueError as error:
            raise FormatError(f"line {self._line}: {error}", "give it as TTML2 says") from error

    def _timed_element(self, name: str, attributes: dict[str, str]) -> _Element:
        parent = self.open[-1]
        keep = attributes["space"] == "preserve" if "space" in attributes else parent.keep_blanks
        sequence = attributes.get("timeContainer") == "seq"
        if name not in _TIMED:
            return _Element(name, parent.begin, parent.end, parent.timed, False, keep, span=parent.span)
        origin = parent.begin
        if parent.sequence and parent.previous_end is not None:
            origin = parent.previous_end
        times = {key: self._seconds(attributes[key]) for key in ("begin", "dur", "end") if key in attributes}
        begin = origin + (times.get("begin") or 0.0)
        ends = [parent.end]
        if (duration := times.get("dur")) is not None:
            ends.append(begin + duration)
        if (end := times.get("end")) is not None:
            ends.append(origin + end)
        known = [end for end in ends if end is not None]
        own = any(value is not None for value in times.values())
        timed = own or parent.timed or parent.sequence
        last = min(known, default=None)
        span = (begin, last) if name == "span" and own else parent.span
        return _Element(name, begin, last, timed, sequence, keep, own, begin, span)

    def _seconds(self, expression: str) -> float | None:
        try:
            return self.base.seconds(expression)
        except ValueError as error:
            self.notes.append(ReadingNote(self._line, f"{error}; read as if it were not there"))
            return None

    def _add(self, text: str) -> None:
        if self.paragraph:
            self.paragraph.pieces.append(Piece(text, *self.open[-1].span))

    def _close(self, element: _Element, paragraph: _Paragraph) -> None:
        pieces = tuple(_joined(paragraph.pieces))
        text = "".join(piece.text for piece in pieces).strip()
        if not text:
            return
        starts = [piece.start for piece in pieces if piece.start is not None]
        if not element.timed and not starts:
            lost = shortened(text)
            self.notes.append(ReadingNote(paragraph.line, f"text without a time; left out: {lost!r}", lost))
            return
        begin, end = element.begin, element.end
        if not element.own_time and starts and all(piece.start is not None for piece in pieces if piece.text.strip()):
            ends = [piece.end for piece in pieces if piece.text.strip()]
            begin = min(starts)
            end = max((end for end in ends if end is not None), default=end) if None not in ends else end
        self.cues.append(TimedText(begin, end, pieces, paragraph.line))


def _joined(pieces: list[Piece]) -> list[Piece]:
    """Pieces with the same times put together; the parser hands text over in arbitrary parts."""
    joined: list[list[Piece]] = []
    for piece in pieces:
        if joined and (joined[-1][0].start, joined[-1][0].end) == (piece.start, piece.end):
            joined[-1].append(piece)
        else:
            joined.append([piece])
    return [Piece("".join(part.text for part in run), run[0].start, run[0].end) for run in joined]
