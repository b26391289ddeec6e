"""Three texts merged line by line: what was last written, what a person made of it, and what is to be written now.

The method is diff3's: S. Khanna, K. Kunal, B. C. Pierce, "A Formal Investigation of Diff3", FSTTCS 2007. Lines that all
three have in common part the texts into stretches; a stretch that only one side changed is taken from that side.
"""

import re
from collections.abc import Iterator, Sequence

from rapidfuzz.distance import Indel

BOM = "\ufeff"


def merged(last: str, edited: str, new: str) -> str | None:
    """The new text with a person's edits of the last one in it; None where both changed the same or adjoining lines.

    What an editor does to every line counts as no edit: line ends and a byte order mark are kept as the edited text has
    them.
    """
    own = _lines(edited)
    returns = sum(line.endswith("\r\n") for line in own)
    coming = [line.replace("\n", "\r\n") if returns * 2 > len(own) else line for line in _lines(new)]
    lines: list[str] = []
    for was, is_now, to_be in _stretches(_lines(last), own, coming):
        if _same(was, to_be) or _same(is_now, to_be):
            lines += is_now
        elif _same(was, is_now):
            lines += to_be
        else:
            return None
    return BOM * edited.startswith(BOM) + "".join(lines)


def _stretches(*texts: list[str]) -> Iterator[tuple[list[str], ...]]:
    """Three texts cut at the lines that all have in common, each such line being a stretch of its own."""
    last, *others = (list(map(_bare, text)) for text in texts)
    matches = [_matches(last, other) for other in others]
    common = [
        (line, *(match[line] for match in matches)) for line in range(len(last)) if all(line in m for m in matches)
    ]
    before = (0,) * len(texts)
    for at in common:
        yield tuple(text[start:end] for text, start, end in zip(texts, before, at, strict=True))
        yield tuple(text[line : line + 1] for text, line in zip(texts, at, strict=True))
        before = tuple(line + 1 for line in at)
    yield tuple(text[start:] for text, start in zip(texts, before, strict=True))


def _matches(first: Sequence[str], second: Sequence[str]) -> dict[int, int]:
    """Which line of the second text each line of the first still is: a longest common subsequence."""
    numbers: dict[str, int] = {}
    codes = [[numbers.setdefault(line, len(numbers)) for line in lines] for lines in (first, second)]
    return {
        operation.src_start + step: operation.dest_start + step
        for operation in Indel.opcodes(*codes)
        if operation.tag == "equal"
        for step in range(operation.src_end - operation.src_start)
    }


def _same(first: Sequence[str], second: Sequence[str]) -> bool:
    return list(map(_bare, first)) == list(map(_bare, second))


def _lines(text: str) -> list[str]:
    """The lines with their ends: a last one without an end is another line than the same with one."""
    return re.findall(r"[^\n]*\n|[^\n]+", text.removeprefix(BOM))


def _bare(line: str) -> str:
    return line.replace("\r\n", "\n")
