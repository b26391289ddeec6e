"""How surely a slip is caught: every value with a row is said wrongly, one at a time, in the ways in which people slip.

usage: python benchmarks/mutation.py PROJECT ... [--limit N] [--seed N] [-v]

PROJECT is a folder with repair.toml. Each value that its table has a row for, and that is right as it stands, is said
wrongly in the caption words: unit for unit, teen for ty, digits turned round, decimal point moved, another row's value,
10, 25 and 50 % more and less; in digits and in words. The recording is read again, and the slip counts as caught where a hold
stands on it. A change that still agrees with the row is none. --limit takes so many of each project at random (--seed).
-v prints every miss and where it was lost.

Where PROJECT has a gold.json, holds and queries of the unchanged recording away from its marked slips are counted too.
"""

import argparse
import json
import random
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

from num2words import num2words  # type: ignore[import-untyped]

from witnessmark.language.heard import corrector
from witnessmark.language.numbers import read_numbers
from witnessmark.language.speech import Speech, read_speech
from witnessmark.procedure.model import Procedure
from witnessmark.project import Project, read_project
from witnessmark.proof import grade, past_strength, restated_pair, two_values, value_against_row
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.proof.tolerance import agrees
from witnessmark.proof.value_against_row import expected_amounts
from witnessmark.quantity import Amount
from witnessmark.reading.model import Mention, Reading
from witnessmark.reading.read import read
from witnessmark.specs.table import SpecTable, read_tables
from witnessmark.transcript import read_transcript
from witnessmark.transcript.model import Transcript, Word
from witnessmark.units import convert, dimension, units

CHECKS = (value_against_row.check, restated_pair.check, grade.check, two_values.check, past_strength.check)
CONFUSED = {
    "N·m": ("lbf·ft", "lbf·in"),
    "lbf·ft": ("N·m", "lbf·in"),
    "lbf·in": ("lbf·ft", "N·m"),
    "kgf·m": ("N·m",),
    "kgf·cm": ("N·m",),
    "psi": ("bar", "kPa"),
    "bar": ("psi",),
    "kPa": ("psi",),
    "mm": ("in",),
    "in": ("mm",),
    "L": ("qt", "pt"),
    "qt": ("L", "pt"),
    "mL": ("fl oz",),
    "fl oz": ("mL",),
    "°C": ("°F",),
    "°F": ("°C",),
    "Ω": ("kΩ",),
    "kΩ": ("Ω",),
    "km": ("mi",),
    "mi": ("km",),
    "month": ("year",),
}
TEENS = {Decimal(teen): Decimal((teen - 10) * 10) for teen in range(13, 20)}
SHARES = (Decimal("0.5"), Decimal("0.75"), Decimal("0.9"), Decimal("1.1"), Decimal("1.25"), Decimal("1.5"))


@dataclass(frozen=True)
class Slip:
    """One value said wrongly. words: what is said instead. amount: what that means. kind: the way of slipping."""

    mention: Mention
    kind: str
    amount: Amount
    words: str


@dataclass(frozen=True)
class Case:
    """A project ready to be read again and again: misheard words put right once."""

    folder: Path
    project: Project
    table: SpecTable
    transcript: Transcript

    def proof(self, transcript: Transcript) -> tuple[Reading, list[Finding]]:
        reading = read(read_speech(transcript), self.table, self.project.title)
        evidence = Evidence(self.project, self.table, reading, Procedure((), (), (), ()), (), ())
        return reading, [finding for check in CHECKS for finding in check(evidence)]


def load(folder: Path) -> Case:
    project = read_project(folder)
    table = read_tables(project.specs)
    transcript = read_transcript(project.captions)
    return Case(folder, project, table, corrected(read_speech(transcript, corrector(project, table))))


def corrected(speech: Speech) -> Transcript:
    """The transcript with its misheard words replaced, so that they need not be sought in every reading."""
    transcript = speech.transcript
    for one in reversed(speech.corrections):
        transcript = replaced(transcript, one.start, one.end, one.meant)
    return transcript


def replaced(transcript: Transcript, first: int, end: int, text: str) -> Transcript:
    """Words first..end (exclusive) say something else in the same time; the last one keeps its punctuation."""
    old = transcript.words[first:end]
    tail = old[-1].text[len(old[-1].text.rstrip(".,?!;:)")) :]
    said = text.split()
    said[-1] += tail
    begin, share = old[0].start, (old[-1].end - old[0].start) / len(said)
    new = tuple(Word(word, begin + i * share, begin + (i + 1) * share, old[0].cue) for i, word in enumerate(said))
    return replace(transcript, words=(*transcript.words[:first], *new, *transcript.words[end:]))


def eligible(reading: Reading, findings: Sequence[Finding]) -> list[Mention]:
    """Values with a row that are right as they stand."""
    doubted = {id for finding in findings for id in finding.mentions}
    return [
        mention
        for mention in reading.mentions
        if mention.row is not None
        and mention.row.amounts
        and not mention.row.to_look_up
        and mention.amount is not None
        and mention.kind not in ("tool_size", "count", "year", "money")
        and mention.role == "stated"
        and mention.id not in doubted
        and not mention.rivals
    ]


def slips(case: Case, reading: Reading, mention: Mention) -> Iterator[Slip]:
    assert mention.amount is not None and mention.row is not None
    followed = mention.id in {other.staged_after for other in reading.mentions}
    right = expected_amounts(mention, mention.row, followed)
    if not any(agrees(mention.amount, amount) for amount in right):
        return  # one end of a range, or a value that the checks leave alone
    seen = set()
    for kind, x, unit in changes(case, mention, mention.amount):
        amount = Amount(x, x, unit)
        if (
            x <= 0
            or (x, unit) in seen
            or any(dimension(unit) == dimension(each.unit) and agrees(amount, each) for each in right)
        ):
            continue
        seen.add((x, unit))
        for words in forms(reading, mention, x, unit):
            yield Slip(mention, kind, amount, words)


def changes(case: Case, mention: Mention, amount: Amount) -> Iterator[tuple[str, Decimal, str]]:
    x, unit = amount.low, amount.unit
    if not mention.inferred:
        yield from (("unit", x, other) for other in CONFUSED.get(unit, ()))
    pairs = {**TEENS, **{ty: teen for teen, ty in TEENS.items()}}
    whole = x == x.to_integral_value()
    if whole and x % 100 in pairs:
        yield "teen-ty", x - x % 100 + pairs[x % 100], unit
    digits = f"{x:f}"
    for i in range(len(digits) - 1):
        a, b = digits[i], digits[i + 1]
        if a.isdigit() and b.isdigit() and a != b and (i or b != "0"):
            yield "transposed", Decimal(digits[:i] + b + a + digits[i + 2 :]), unit
    yield from (("decimal", x.scaleb(power), unit) for power in (1, -1))
    for row in case.table.rows:
        if (
            row.kind == mention.kind
            and row.amounts
            and mention.row
            and row.item != mention.row.item
            and dimension(row.amounts[0].unit) == dimension(unit)
        ):
            there = (
                row.amounts[0].low
                if row.amounts[0].unit == unit
                else convert(row.amounts[0].low, row.amounts[0].unit, unit)
            )
            yield "other row", rounded(there, x), unit
    yield from ((f"{(share - 1) * 100:+.0f} %", rounded(x * share, x), unit) for share in SHARES)


def rounded(y: Decimal, like: Decimal) -> Decimal:
    """To the last digit of another figure, as one would say it."""
    places = max(0, -int(like.as_tuple().exponent))
    return y.quantize(Decimal(1).scaleb(-places))


def forms(reading: Reading, mention: Mention, x: Decimal, unit: str) -> Iterator[str]:
    """In digits and in words, with the unit's own words where it stays and was said."""
    assert mention.amount is not None
    texts = reading.speech.texts[mention.first : mention.end]
    numbers = read_numbers(texts)
    said = " ".join(texts[numbers[0].end :]) if numbers else ""
    if not said and mention.amount.unit == unit:
        tail = ""
    elif mention.amount.unit == unit:
        tail = said
    else:
        tail = (units()[unit].spoken or units()[unit].after_number or (unit,))[-1]
    number = f"{x.normalize():f}"
    for figure in (number, num2words(x.normalize() if "." in number else int(x)).replace(",", "").replace("-", " ")):
        yield f"{figure} {tail}".strip()


def trial(case: Case, reading: Reading, slip: Slip) -> tuple[str, str]:
    """What a slip comes to: "hold", "query" or "missed", and where it was lost."""
    tokens = reading.speech.tokens
    first, last = tokens[slip.mention.first].word, tokens[slip.mention.end - 1].word
    transcript = replaced(case.transcript, first, last + 1, slip.words)
    again, findings = case.proof(transcript)
    begin, end = transcript.words[first].start, case.transcript.words[last].end
    on = [finding for finding in findings if finding.start < end + 0.01 and finding.end > begin - 0.01]
    for severity in ("hold", "query"):
        if any(finding.severity == severity for finding in on):
            return severity, "" if severity == "hold" else "a query"
    return "missed", lost(again, slip, begin, end)


def lost(reading: Reading, slip: Slip, begin: float, end: float) -> str:
    near = [m for m in reading.mentions if m.start < end and m.origin.end > begin]
    same = [m for m in near if m.amount is not None and abs(m.amount.low - slip.amount.low) < Decimal("0.0005")]
    if not same:
        return f"not read as said ({', '.join(f'{m.said}: {m.kind}' for m in near) or 'nothing'})"
    found = same[0]
    if found.kind != slip.mention.kind:
        return f"read as {found.kind}"
    if found.row is None or slip.mention.row is None or found.row.item != slip.mention.row.item:
        return f"taken for {found.item}"
    if found.role != "stated":
        return f"role {found.role}"
    if found.amount is not None and found.amount.unit != slip.amount.unit:
        return f"unit read as {found.amount.unit}"
    return "rivals" if found.rivals else "not told for sure"


def false_alarms(case: Case, findings: Sequence[Finding]) -> Counter[str]:
    path = case.folder / "gold.json"
    if not path.exists():
        return Counter()
    slips_marked = json.loads(path.read_text(encoding="utf-8"))["slips"]
    away = [f for f in findings if not any(f.start - 3 <= s["end"] and s["t"] <= f.end + 3 for s in slips_marked)]
    return Counter(finding.severity for finding in away)


def measure(
    folder: Path, limit: int, seed: int, verbose: bool
) -> tuple[Counter[tuple[str, str]], Counter[tuple[str, str]], Counter[str]]:
    case = load(folder)
    reading, findings = case.proof(case.transcript)
    every = [slip for mention in eligible(reading, findings) for slip in slips(case, reading, mention)]
    chosen = (
        every
        if len(every) <= limit
        else sorted(random.Random(seed).sample(every, limit), key=lambda slip: slip.mention.first)
    )
    by_slip: Counter[tuple[str, str]] = Counter()
    by_kind: Counter[tuple[str, str]] = Counter()
    reasons: Counter[str] = Counter()
    for slip in chosen:
        result, why = trial(case, reading, slip)
        by_slip[slip.kind, result] += 1
        by_kind[slip.mention.kind, result] += 1
        if result != "hold":
            reasons[why.partition(" (")[0].partition(" for ")[0]] += 1
            if verbose:
                print(
                    f"   {result:6} {slip.kind:10} {slip.mention.kind:9} {slip.mention.said!r} -> {slip.words!r} "
                    f"at {slip.mention.start:.1f} s of {slip.mention.item}: {why}"
                )
    caught = sum(n for (_, result), n in by_slip.items() if result == "hold")
    alarms = false_alarms(case, findings)
    share = f"{caught / len(chosen):.3f}" if chosen else "-"
    print(
        f"{folder.name:24} slips {len(chosen):4} of {len(every):4}  caught as hold {share}  "
        f"unchanged: holds {alarms['hold']}, queries {alarms['query']}",
        flush=True,
    )
    return by_slip, by_kind, reasons


def table_of(counts: Counter[tuple[str, str]]) -> Iterator[str]:
    rows: dict[str, Counter[str]] = defaultdict(Counter)
    for (name, result), n in counts.items():
        rows[name][result] += n
    for name, row in sorted(rows.items()):
        total = sum(row.values())
        held, seen = row["hold"] / total, (row["hold"] + row["query"]) / total
        yield f"   {name:14} {total:5}  hold {held:.3f}  hold or query {seen:.3f}"


def main(arguments: Sequence[str]) -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    parser.add_argument("projects", nargs="+", type=Path)
    parser.add_argument("--limit", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("-v", "--verbose", action="store_true")
    options = parser.parse_args(arguments)
    started = time.perf_counter()
    by_slip: Counter[tuple[str, str]] = Counter()
    by_kind: Counter[tuple[str, str]] = Counter()
    lost_by: Counter[str] = Counter()
    for folder in options.projects:
        slipped, kinds, reasons = measure(folder, options.limit, options.seed, options.verbose)
        by_slip += slipped
        by_kind += kinds
        lost_by += reasons
    print("by slip", *table_of(by_slip), sep="\n")
    print("by kind of value", *table_of(by_kind), sep="\n")
    print("where they were lost:", ", ".join(f"{why} {n}" for why, n in lost_by.most_common()) or "nowhere")
    print(f"{sum(by_slip.values())} slips in {time.perf_counter() - started:.0f} s")


if __name__ == "__main__":
    main(sys.argv[1:])
