"""How findings speak: values, times, and cards that a viewer can read in the time they are shown."""

from decimal import Decimal

from witnessmark.house_style import plain, shown
from witnessmark.proof.model import Fix
from witnessmark.quantity import Amount, Value
from witnessmark.reading.model import Mention
from witnessmark.specs.table import SpecRow

READING_SPEED = 15.0  # characters a second; common practice for captions
LEAST_TIME = 2.0  # seconds; common practice
CARD_LENGTH = 90


def clock(seconds: float) -> str:
    """A time in the recording as players show it, cut off to whole seconds so that it never lies after the word.

    >>> clock(247.9), clock(3723)
    ('4:07', '1:02:03')
    """
    minutes, second = divmod(int(max(0.0, seconds)), 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours}:{minute:02d}:{second:02d}" if hours else f"{minute}:{second:02d}"


def bare(said: str) -> str:
    """The captions' words without the punctuation around them."""
    return said.strip(" .,;:?!()")


def amount_text(amount: Amount) -> str:
    """One amount with its unit."""
    return plain(amount)


def row_text(row: SpecRow) -> str:
    """What a row says, in both units where the trade uses two."""
    return shown(row.amounts) if row.amounts else row.printed


def row_place(row: SpecRow) -> str:
    """Where a row stands: file, line, and the manual that it cites."""
    source = f" ({row.origin.source})" if row.origin.source else ""
    return f"{row.origin.file} row {row.origin.row}{source}"


def row_value(row: SpecRow) -> Value:
    """A row as a value that may be shown."""
    return Value(row.amounts, row.grade, row.printed, row.origin)


def card(text: str, start: float) -> Fix:
    """An on-screen correction that begins with the words it corrects and stays as long as it takes to read."""
    short = text if len(text) <= CARD_LENGTH else text[: CARD_LENGTH - 1].rstrip() + "…"
    seconds = max(LEAST_TIME, len(short) / READING_SPEED)
    return Fix(card=short, card_in=round(start, 3), card_out=round(start + seconds, 3))


def correction(mention: Mention, row: SpecRow, caption: str | None) -> Fix:
    """Caption text and card that put a value right."""
    shown_card = card(f"Correction: {row.item} {row_text(row)}", mention.start)
    return Fix(caption, shown_card.card, shown_card.card_in, shown_card.card_out)


def number(x: Decimal) -> str:
    """A figure without trailing zeros."""
    return f"{x.normalize():f}"
