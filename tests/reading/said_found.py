"""The fixtures of reading: what is said, with what is found in it below.

    table: car                          a table of tests/reading/tables, for all that follows
    title: front brakes                 the recording's title, until the next table (may be left out)

    said: the drain plug gets thirty five newton metres
    found: torque 35 N·m @oil drain plug

`said` goes on over the next lines until `found`. `(pause 2)` in it is a silence of two seconds. Several finds stand
apart by `;`, in the order said. A find is: kind, value, unit, `@item`, and in brackets what else is known of it: (again)
says the one before in another unit, (stage 2) follows another in one tightening, and the role where it is not simply
stated: (retracted), (warned), (hearsay), (other machine), (of tool), (measured). `@nothing` means that no item is named;
without `@` the item is not compared. `nothing` alone: no value at all. Counts, years, money, times, distances, masses and
lengths of no item of the table, and the square drive of a wrench, are compared only where `found` names their kind.
"""

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from witnessmark.language.heard import corrector
from witnessmark.language.speech import read_speech
from witnessmark.project import Project
from witnessmark.reading.model import Mention, Reading
from witnessmark.reading.read import read
from witnessmark.specs.table import SpecTable, read_tables
from witnessmark.transcript.reader import parse_transcript

HERE = Path(__file__).parent
IDLE = frozenset({"count", "year", "money", "duration", "distance", "mass", "length"})
LENGTHS = frozenset({"length", "depth"})
WORD_SECONDS = 0.36


@dataclass(frozen=True)
class Case:
    """One fixture. group: the heading that it stands under."""

    place: str
    group: str
    table: str
    title: str
    said: str
    found: str


def cases(name: str) -> list[Case]:
    """All cases of a file beside this one."""
    found: list[Case] = []
    blank = Case("", "", "", "", "", "")
    said: list[str] = []
    for number, line in enumerate((HERE / name).read_text(encoding="utf-8").splitlines(), 1):
        key, _, rest = line.partition(":")
        if line.startswith("#"):
            continue
        if line.startswith("== "):
            blank = replace(blank, group=line[3:].strip())
        elif key == "table":
            blank = replace(blank, table=rest.strip(), title="")
        elif key == "title":
            blank = replace(blank, title=rest.strip())
        elif key == "said":
            said, blank = [rest.strip()], replace(blank, place=f"{name}:{number}")
        elif key == "found":
            found.append(replace(blank, said=" ".join(said), found=rest.strip()))
        elif line.strip():
            said.append(line.strip())
    return found


@cache
def table_of(name: str) -> SpecTable:
    return read_tables([HERE / "tables" / f"{name}.csv"])


def captions(said: str) -> bytes:
    """The words as captions: one block behind a bracketed time, or WebVTT cues where a silence is told."""
    if "(pause " not in said:
        return f"[0:00] {said}\n".encode()
    lines, at = ["WEBVTT", ""], 1.0
    for part in said.split("(pause "):
        seconds, close, words = part.rpartition(")")
        at += float(seconds) if close else 0.0
        end = at + WORD_SECONDS * len(words.split())
        lines += [f"00:{at // 60:02.0f}:{at % 60:06.3f} --> 00:{end // 60:02.0f}:{end % 60:06.3f}", words.strip(), ""]
        at = end
    return "\n".join(lines).encode()


@cache
def read_case(case: Case) -> Reading:
    """The whole way from captions to mentions."""
    return reading_of(case, captions(case.said))


def reading_of(case: Case, data: bytes) -> Reading:
    """The same for other captions in place of the case's own."""
    table = table_of(case.table)
    project = Project(HERE, case.title or "repair", HERE / "captions.txt")
    speech = read_speech(parse_transcript(data, "captions.txt"), corrector(project, table))
    return read(speech, table, project.title)


def told(case: Case, reading: Reading) -> str:
    """What was found, written as the case writes it."""
    wanted = [find.split() for find in case.found.split(";")]
    kinds = {words[0] for words in wanted if words}
    shown = [mention for mention in reading.mentions if mention.kind in kinds or not _is_idle(mention)]
    shown = [one for i, one in enumerate(shown) if not (i and _ends_range(shown[i - 1], one))]
    finds = [
        find(mention, with_item=i >= len(wanted) or any(word.startswith("@") for word in wanted[i]))
        for i, mention in enumerate(shown)
    ]
    return "; ".join(finds) or "nothing"


def _is_idle(mention: Mention) -> bool:
    of_nothing = mention.kind in IDLE and mention.row is None
    return of_nothing or (mention.kind in LENGTHS and mention.role == "of_tool")


def _ends_range(first: Mention, second: Mention) -> bool:
    return second.whole is not None and second.whole is not second.amount and second.whole == first.whole


def find(mention: Mention, with_item: bool) -> str:
    """One mention as the fixtures write it."""
    parts = [mention.kind, _value(mention)]
    if with_item:
        parts.append(f"@{mention.item or 'nothing'}")
    if mention.restates:
        parts.append("(again)")
    if mention.stage:
        parts.append(f"(stage {mention.stage + 1})")
    if mention.role != "stated":
        parts.append(f"({mention.role.replace('_', ' ')})")
    return " ".join(parts)


def _value(mention: Mention) -> str:
    if mention.size is not None:
        value, system = f"{mention.size.size:f}", mention.size.system
        return f"{value} {system}" if system in ("mm", "in") else f"{system}{value}"
    if mention.amount is None or mention.whole is None:
        return mention.grade or ""
    ends = [f"{end:f}" for end in dict.fromkeys((mention.whole.low, mention.whole.high))]
    return f"{'–'.join(ends)} {mention.amount.unit}".strip()
