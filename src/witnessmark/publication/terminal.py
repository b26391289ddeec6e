"""Findings on a terminal: a table for a person, plain lines for a file or another program."""

import os
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rich.console import Console
from rich.table import Table
from rich.text import Text

from witnessmark.proof.model import SEVERITIES, Finding, Severity
from witnessmark.proof.wording import clock
from witnessmark.publication.escape import printable
from witnessmark.publication.findings import by_weight, details, is_open

if TYPE_CHECKING:
    from witnessmark.publication.write import Written

WIDE = 1000  # columns of a table that no terminal folds
LISTED = 3  # of the places whose words are left out
STYLES: dict[Severity, str] = {"hold": "bold red", "query": "yellow", "note": "cyan"}


def print_findings(title: str, findings: Sequence[Finding], console: Console, left_out: Sequence[str] = ()) -> None:
    """Print findings, gravest first, and one line that sums them up. left_out: as `summary` takes it.

    A table where the console is a terminal, else plain lines. Every text is printed as it stands: rich markup and
    control characters in it do nothing.
    """
    shown = by_weight(findings)
    if shown and console.is_terminal:
        console.print(_table(shown))
    else:
        for finding in shown:
            for line in plain_lines(finding):
                console.print(Text(line), soft_wrap=True)
            console.print()
    console.print(Text(summary(title, findings, left_out)), soft_wrap=True)


def print_totals(projects: Sequence[tuple[str, Sequence[Finding] | None]]) -> None:
    """Print one table of many projects: name, and how many findings of each severity are open; None: it was not read."""
    console = Console(highlight=False)
    if not console.is_terminal:
        console = Console(highlight=False, width=WIDE)
    table = Table(box=None, padding=(0, 2, 0, 0), header_style="bold", pad_edge=False)
    table.add_column("Project", overflow="fold")
    for heading in ("Holds", "Queries", "Notes", "Settled"):
        table.add_column(heading, justify="right")
    for name, findings in projects:
        table.add_row(*_totals(printable(name), findings))
    console.print()
    console.print(table)


def _totals(name: str, findings: Sequence[Finding] | None) -> Iterator[Text]:
    if findings is None:
        yield Text(f"{name} (not read)", style="bold red")
        return
    yield Text(name)
    counts = Counter(finding.severity for finding in findings if is_open(finding))
    for severity in SEVERITIES:
        yield Text(str(counts[severity]), style=STYLES[severity] if counts[severity] else "dim")
    yield Text(str(sum(not is_open(finding) for finding in findings)), style="dim")


def written_lines(out: Path, written: Sequence["Written"]) -> Iterator[str]:
    """What was put into a folder, a line each; the files of a folder in it on one line, but for those beside an edited one."""
    groups = Counter(each.path.parent for each in written if each.kept is None and not each.merged)
    for each in written:
        if each.kept is not None:
            yield f"wrote {each.path} ({each.kept} was edited since it was written and is kept)"
        elif each.merged:
            yield f"wrote {each.path} (merged with your edits)"
        elif each.path.parent == out:
            yield f"wrote {each.path}"
        elif number := groups.pop(each.path.parent, 0):
            yield f"wrote {each.path.parent}{os.sep} ({number} file{'s' if number > 1 else ''})"


def summary(title: str, findings: Sequence[Finding], left_out: Sequence[str] = ()) -> str:
    """One line: how many of each severity are open, how many settled, and which captions' words were not read."""
    counts = Counter(finding.severity for finding in findings if is_open(finding))
    told = [_counted(counts[severity], severity) for severity in SEVERITIES if counts[severity]]
    settled = sum(not is_open(finding) for finding in findings)
    verdict = ", ".join(told) or "nothing open"
    unread = f"; {not_read(left_out)}" if left_out else ""
    return f"{printable(title)}: {verdict}" + (f" ({settled} settled)" if settled else "") + unread


def not_read(left_out: Sequence[str]) -> str:
    """That words of the captions were not read, and where the first of them stand."""
    more = f" and {len(left_out) - LISTED} more" if len(left_out) > LISTED else ""
    return printable(f"NOT READ, so not checked: {', '.join(left_out[:LISTED])}{more}")


def plain_lines(finding: Finding) -> Iterator[str]:
    """One finding as lines: time, severity, check and id, then what there is to know, one a line."""
    state = f"{finding.severity} (settled)" if finding.settled is not None else finding.severity
    yield f"{clock(finding.start)}  {state}  {finding.check}  {finding.id}".rstrip()
    for label, text in details(finding):
        yield f"    {label + ':':11} {text}"


def _table(findings: Sequence[Finding]) -> Table:
    table = Table(box=None, padding=(0, 2, 1, 0), header_style="bold", pad_edge=False)
    for heading, options in (("Time", {"justify": "right"}), ("Severity", {}), ("Finding", {"ratio": 1})):
        table.add_column(heading, **options)
    for finding in findings:
        style = "dim" if finding.settled is not None else STYLES[finding.severity]
        table.add_row(Text(clock(finding.start)), Text(finding.severity, style=style), _body(finding))
    return table


def _body(finding: Finding) -> Text:
    body = Text()
    for label, text in details(finding):
        body.append(f"{label}: ", style="dim" if label != "finding" else "bold")
        body.append(text + "\n")
    body.append(f"{finding.check}  {finding.id}", style="dim")
    return body


def _counted(number: int, severity: Severity) -> str:
    plural = {"hold": "holds", "query": "queries", "note": "notes"}
    return f"{number} {severity if number == 1 else plural[severity]}"
