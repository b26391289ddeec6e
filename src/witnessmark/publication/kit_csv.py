"""kit.csv: the same lists for a spreadsheet."""

import csv
from io import StringIO

from witnessmark.publication.escape import printable
from witnessmark.publication.manuscript import Manuscript

FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
"""First characters, the wide ones too, that make a spreadsheet run a cell as a formula (OWASP, "CSV Injection", from memory)."""


def kit_csv(manuscript: Manuscript) -> str:
    """The text of kit.csv: kind, name, size, and the second of the recording at which it is first named."""
    kit = manuscript.kit
    text = StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow(("kind", "name", "size", "first_named"))
    for kind, things in (
        ("tool", kit.tools),
        ("part", kit.parts),
        ("supply", kit.supplies),
        ("fastener", kit.fasteners),
    ):
        table.writerows(
            (kind, spreadsheet_cell(each.name), spreadsheet_cell(each.size or ""), f"{each.first:.1f}")
            for each in things
        )
    return text.getvalue()


def spreadsheet_cell(text: str) -> str:
    """A text as a cell that no spreadsheet runs."""
    plain = printable(text)
    return f"'{plain}" if plain.startswith(FORMULA) else plain
