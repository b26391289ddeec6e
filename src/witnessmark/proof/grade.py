"""A grade of fluid said that is not the grade of its row.

*said*: top it up with DOT 3 · *found*: the table gives brake fluid DOT 4.
Source: common practice (grades are not interchangeable unless the manual says so).
"""

from collections.abc import Iterator

from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.proof.wording import bare, clock, correction, row_place, row_value
from witnessmark.reading.grades import grade_parts
from witnessmark.reading.model import Mention
from witnessmark.specs.table import SpecRow

NAME = "grade"


def check(evidence: Evidence) -> Iterator[Finding]:
    """Grades of the same series as the row's; another series says something else of the fluid."""
    for mention in evidence.mentions:
        row = mention.row
        if mention.grade is None or mention.role != "stated" or row is None or row.grade is None:
            continue
        said, meant = grade_parts(mention.grade), grade_parts(row.grade)
        series = {name for name, _ in said} & {name for name, _ in meant}
        if series and not said & meant:
            yield _finding(mention, row)


def _finding(mention: Mention, row: SpecRow) -> Finding:
    message = f'At {clock(mention.start)} "{bare(mention.said)}" was said of the {row.item}; {row_place(row)} says {row.printed}.'
    return Finding(
        NAME, "hold", mention.start, mention.origin.end, mention.said, message, row.printed, row.item,
        f"{mention.grade} was said for {row.printed}", correction(mention, row, row.printed), row.origin, row_value(row), (mention.id,),
    )  # fmt: skip
