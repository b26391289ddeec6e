"""Lettering on pictures, with the one font that comes with Pillow: the same everywhere, no font of the system."""

import unicodedata
from functools import cache

from PIL import ImageFont

from witnessmark.data import read_rows

Font = ImageFont.FreeTypeFont


@cache
def font(size: int) -> Font:
    """The font at a size in pixels."""
    found = ImageFont.load_default(size)
    if not isinstance(found, Font):
        raise RuntimeError("Pillow was built without FreeType")
    return found


def drawable(text: str) -> str:
    """A text in letters that the font has: others are written as data/lettering.csv has them, or without their accent."""
    return "".join(map(_drawable, unicodedata.normalize("NFC", text)))


def wrapped(text: str, size: int, width: float) -> list[str]:
    """Lines no wider than `width` pixels; a word that is wider by itself stands on a line of its own."""
    lines: list[str] = []
    for word in text.split():
        if lines and font(size).getlength(f"{lines[-1]} {word}") <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


@cache
def _drawable(letter: str) -> str:
    if letter == " " or _has(letter):
        return letter
    told = _substitutes().get(letter)
    bare = "".join(each for each in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(each))
    written = told if told is not None else bare
    return written if written and all(each == " " or _has(each) for each in written) else "?"


def _has(letter: str) -> bool:
    nothing = font(40).getmask("\uffff")
    mask = font(40).getmask(letter)
    return (mask.size, bytes(mask)) != (nothing.size, bytes(nothing))


@cache
def _substitutes() -> dict[str, str]:
    return {row["letter"]: row["written"] for row in read_rows("lettering.csv")}
