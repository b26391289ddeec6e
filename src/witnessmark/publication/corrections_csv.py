"""corrections.csv: what to mend in the edit, one row a card, for a spreadsheet or an editor's list of marks."""

import csv
from io import StringIO

from witnessmark.publication.corrections import Correction, corrections
from witnessmark.publication.kit_csv import spreadsheet_cell
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.timed_text import time_code

COLUMNS = ("in", "out", "what", "caption_text", "card_text", "finding", "state")


def corrections_csv(manuscript: Manuscript) -> str:
    """The text of corrections.csv: in and out as 00:04:07.900, the findings' names parted by blanks."""
    text = StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow(COLUMNS)
    table.writerows(_row(card) for card in corrections(manuscript.examination.findings))
    return text.getvalue()


def _row(card: Correction) -> tuple[str, ...]:
    first = card.findings[0]
    caption = first.fix.caption if first.fix else None
    cells = (
        first.message,
        caption or "",
        card.text,
        " ".join(each.id for each in card.findings),
        first.settled or f"open {first.severity}",
    )
    return time_code(card.start), time_code(card.end), *map(spreadsheet_cell, cells)
