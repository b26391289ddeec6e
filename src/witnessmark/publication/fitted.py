"""A text of sections shortened to a limit: whole lines go, the least important first, and the text says so."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Section:
    """Lines under a heading, "" for none.

    weight: how important; the lowest goes first. name: what the text calls it where it is left out. whole: a part of it
    would mislead, so that it stays or goes as one. A section of weight None always stays.
    """

    name: str
    heading: str
    lines: tuple[str, ...]
    weight: int | None
    whole: bool = False


def fitted(sections: Sequence[Section], limit: int) -> str:
    """The sections in their order, parted by empty lines, in at most limit characters.

    Lines go from the end of the least important section. A section that lost some says how many; those that lost all
    are named in one last line. What always stays may be longer than a limit that is too small for it.
    """
    kept = {section.name: len(section.lines) for section in sections}
    by_weight = sorted((each for each in sections if each.weight is not None), key=lambda each: each.weight or 0)
    while len(text := _text(sections, kept)) > limit:
        least = next((each for each in by_weight if kept[each.name]), None)
        if least is None:
            break
        kept[least.name] = 0 if least.whole else kept[least.name] - 1
    return text


def _text(sections: Sequence[Section], kept: dict[str, int]) -> str:
    blocks = [_block(section, kept[section.name]) for section in sections if kept[section.name]]
    gone = [section.name for section in sections if section.lines and not kept[section.name]]
    if gone:
        blocks.append(f"Left out here for length: {', '.join(gone)}.")
    return "\n\n".join(blocks) + "\n" if blocks else ""


def _block(section: Section, count: int) -> str:
    missing = len(section.lines) - count
    more = [f"(and {missing} more, left out here for length)"] if missing else []
    return "\n".join([*([section.heading] if section.heading else []), *section.lines[:count], *more])
