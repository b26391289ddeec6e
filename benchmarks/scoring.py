"""The measures of accuracy: what an examination found against the facts marked in a recording's script.

Every measure takes the facts of gold.json and those of a build and answers how many were found, expected and said.
"""

import csv
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

from rapidfuzz import fuzz

from witnessmark.units import convert, label_of

Fact = dict[str, Any]
Misses = list[str]

CLOSE_ENOUGH = 0.005  # share of a figure by which another may differ and be the same
ALIKE = 82  # of 100: names that differ less than this in spelling are one name
LISTS = ("tools", "parts", "supplies", "fasteners")
# Findings of these checks are scored by measures of their own and are no false alarms on values.
APART = ("order", "owed", "hazard", "misheard")
SMALL_WORDS = frozenset(
    [
        "the",
        "a",
        "an",
        "of",
        "your",
        "its",
        "it",
        "and",
        "or",
        "in",
        "on",
        "to",
        "from",
        "with",
        "then",
        "off",
        "up",
        "out",
        "by",
        "at",
        "for",
        "until",
        "so",
        "is",
        "that",
        "them",
        "new",
        "old",
        "this",
    ]
)
TALK = re.compile(r"\b(i|we|my|our|us|me|gonna|wanna|gotta|uh|um|okay|guys|i'm|i've|we're|you're)\b", re.IGNORECASE)


@dataclass
class Score:
    """One measure. said: how many were given in all, None where only recall is measured. right: how many of those are right,
    where that is not `found`. note: a figure to print beside. misses: what went wrong, a line each."""

    found: int = 0
    expected: int = 0
    said: int | None = None
    right: int | None = None
    note: str = ""
    misses: Misses = field(default_factory=list)

    @property
    def recall(self) -> float | None:
        return self.found / self.expected if self.expected else None

    @property
    def precision(self) -> float | None:
        return (self.found if self.right is None else self.right) / self.said if self.said else None

    def __add__(self, other: "Score") -> "Score":
        right = None if self.right is None and other.right is None else (self.right or 0) + (other.right or 0)
        said = None if self.said is None or other.said is None else self.said + other.said
        return Score(
            self.found + other.found, self.expected + other.expected, said, right, misses=self.misses + other.misses
        )


@dataclass(frozen=True)
class Recording:
    """One recording to score. slack: seconds by which the times of its caption form can be off."""

    gold: dict[str, Any]
    facts: dict[str, Any]
    items: dict[str, str]  # every name of the table, plain -> its item
    slack: float
    mark_slack: float  # the same for chapters


def score(recording: Recording) -> dict[str, Score]:
    """Every measure by its name."""
    return {name: score for measure in MEASURES for name, score in measure(recording).items()}


# --- names and times


def plain(name: str | None) -> str:
    """A name without case, punctuation, small words and plural endings."""
    words = re.findall(r"[a-z0-9/.]+", (name or "").lower().replace("-", " "))
    return " ".join(_singular(word) for word in words if word not in SMALL_WORDS)


def _singular(word: str) -> str:
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def alike(one: str | None, other: str | None) -> bool:
    """Whether two names are of one thing: the same words but for some more before them, or nearly the same letters."""
    first, second = plain(one).split(), plain(other).split()
    if not first or not second:
        return False
    shared = set(first) & set(second)
    if shared in (set(first), set(second)):
        return first[-1] == second[-1] or len(shared) > 1
    return fuzz.token_sort_ratio(" ".join(first), " ".join(second)) > ALIKE


def items_of(table: Path) -> dict[str, str]:
    """Every name in a specification table, plain, with the item that it names."""
    names: dict[str, str] = {}
    if table.exists():
        with table.open(encoding="utf-8", newline="") as rows:
            for row in csv.DictReader(rows):
                for name in (row["item"], *(row.get("also_called") or "").split(";")):
                    names.setdefault(plain(name), plain(row["item"]))
    names.pop("", None)
    return names


def paired(
    gold: Sequence[Fact], found: Sequence[Fact], same: Callable[[Fact, Fact], bool], slack: float
) -> list[tuple[Fact, Fact]]:
    """Pairs of one thing, each used once, those nearest in time first."""
    near = [
        (abs(one["t"] - other["start"]), i, j)
        for i, one in enumerate(gold) for j, other in enumerate(found)
        if abs(one["t"] - other["start"]) <= slack and same(one, other)
    ]  # fmt: skip
    pairs: dict[int, int] = {}
    for _, i, j in sorted(near):
        if i not in pairs and j not in pairs.values():
            pairs[i] = j
    return [(gold[i], found[j]) for i, j in pairs.items()]


def touches(fact: Fact, finding: Fact, slack: float) -> bool:
    """Whether a finding stands on a fact's words."""
    return fact["t"] <= finding["end"] + slack and finding["start"] <= fact.get("end", fact["t"]) + slack


def _left(facts: Iterable[Fact], used: Sequence[Fact]) -> list[Fact]:
    return [fact for fact in facts if not any(fact is other for other in used)]


def _listed(what: str, facts: Iterable[Fact], shown: Callable[[Fact], str]) -> Misses:
    return [f"{what} at {fact.get('t', fact.get('start', fact.get('first'))):.0f} s: {shown(fact)}" for fact in facts]


def _matched(
    gold: Sequence[Fact], found: Sequence[Fact], same: Callable[[Fact, Fact], bool], slack: float
) -> tuple[Score, list[tuple[Fact, Fact]]]:
    pairs = paired(gold, found, same, slack)
    misses = _listed(
        "missed",
        _left(gold, [one for one, _ in pairs]),
        lambda fact: str(fact.get("said") or fact.get("text") or fact.get("topic")),
    )
    misses += _listed(
        "extra",
        _left(found, [other for _, other in pairs]),
        lambda fact: str(fact.get("said") or fact.get("text") or fact.get("title")),
    )
    return Score(len(pairs), len(gold), len(found), misses=misses), pairs


# --- values


def figure(value: object) -> float | None:
    """A value as a number; None for a grade."""
    try:
        return float(Fraction(str(value)))
    except (ValueError, ZeroDivisionError):
        return None


def _close(one: float | None, other: float | None) -> bool:
    return one is not None and other is not None and abs(one - other) <= CLOSE_ENOUGH * abs(one) + 1e-9


def _newton_metres(value: object, unit: str | None) -> float | None:
    number = figure(value)
    return None if number is None or not unit else float(convert(Decimal(str(number)), label_of(unit), "N·m"))


def torques(recording: Recording) -> dict[str, Score]:
    """Torques found, and of those with an item in the script the ones given to it."""

    def same(one: Fact, other: Fact) -> bool:
        wanted = _newton_metres(one["value"], one["unit"])
        return any(_close(wanted, _newton_metres(other[end], other["unit"])) for end in ("value", "low", "high"))

    gold = recording.gold["torques"]
    total, pairs = _matched(
        gold, [m for m in recording.facts["mentions"] if m["kind"] == "torque"], same, recording.slack
    )
    wrong = [
        (one, other) for one, other in pairs if one["item"] and not _same_item(recording, one["item"], other["item"])
    ]
    right = sum(one["item"] is not None for one, _ in pairs) - len(wrong)
    lines = [
        f"wrong item at {one['t']:.0f} s: {one['said']}: {other['item']} for {one['item']}" for one, other in wrong
    ]
    return {
        "torque": total,
        "torque's item": Score(right, sum(fact["item"] is not None for fact in gold), misses=lines),
    }


def _same_item(recording: Recording, wanted: str, found: str | None) -> bool:
    known = recording.items.get(plain(wanted))
    return known == recording.items.get(plain(found), plain(found)) if known else alike(wanted, found)


def _size(value: object, unit: str | None) -> tuple[str, float] | None:
    lettered = re.fullmatch(r"\s*([a-zA-Z]+)[ -]?(\d+)\s*", str(value))
    if lettered:
        return lettered[1].upper(), float(lettered[2])
    words = str(value).replace("-", " ").split()
    parts = [figure(word) for word in words]
    if not parts or None in parts:
        return None
    return unit or "mm", round(sum(part for part in parts if part is not None), 4)


def tool_sizes(recording: Recording) -> dict[str, Score]:
    """Sizes of sockets, wrenches, keys and bits."""
    found = [m for m in recording.facts["mentions"] if m["kind"] == "tool_size"]
    same = lambda one, other: _size(one["value"], one["unit"]) == _size(other["value"], other["unit"])  # noqa: E731
    return {"tool size": _matched(recording.gold["sizes"], found, same, recording.slack)[0]}


def other_values(recording: Recording) -> dict[str, Score]:
    """All other values; only recall counts, since a build may read more than a script marks."""

    def same(one: Fact, other: Fact) -> bool:
        wanted = figure(one["value"])
        if wanted is None:
            return plain(str(one["value"])).replace(" ", "") in plain(f"{other['value']} {other['said']}").replace(
                " ", ""
            )
        whole = plain(f"{one['value']}{one['unit'] or ''}").replace(" ", "")
        return any(_close(wanted, figure(other[end])) for end in ("value", "low", "high")) or whole == plain(
            str(other["value"])
        ).replace(" ", "")

    found = [m for m in recording.facts["mentions"] if m["kind"] not in ("torque", "tool_size")]
    total, pairs = _matched(recording.gold["values"], found, same, recording.slack)
    missed = [line for line in total.misses if line.startswith("missed")]
    return {"other value": Score(len(pairs), total.expected, misses=missed)}


# --- lists


def kit(recording: Recording) -> dict[str, Score]:
    """Tools, parts, supplies and fasteners. What stands in the wrong one of the four lists is missing from the right one, but no wrong thing."""
    known = [fact["name"] for kind in LISTS for fact in recording.gold[kind]]
    scores = {}
    for kind in LISTS:
        gold, found = recording.gold[kind], recording.facts[kind]
        missed = [fact for fact in gold if not any(_same_thing(fact["name"], thing) for thing in found)]
        extra = [thing for thing in found if not any(_same_thing(name, thing) for name in known)]
        misses = _listed("missed", missed, lambda fact: fact["name"]) + _listed(
            "extra", extra, lambda thing: thing["name"]
        )
        scores[kind] = Score(len(gold) - len(missed), len(gold), len(found), len(found) - len(extra), misses=misses)
    return scores


def _same_thing(name: str, thing: Fact) -> bool:
    return alike(name, thing["name"]) or alike(name, f"{thing['size'] or ''} {thing['name']}")


# --- findings


def _open_findings(recording: Recording) -> list[Fact]:
    return [f for f in recording.facts["findings"] if f["severity"] in ("hold", "query") and not f["settled"]]


def slips(recording: Recording) -> dict[str, Score]:
    """Slips on which a finding stands. That a word may be misheard is no catch."""
    gold, slack = recording.gold["slips"], recording.slack
    findings = [finding for finding in _open_findings(recording) if finding["check"] != "misheard"]
    missed = [slip for slip in gold if not any(touches(slip, finding, slack) for finding in findings)]
    held = [slip for slip in gold if any(touches(slip, f, slack) for f in findings if f["severity"] == "hold")]
    misses = _listed("missed", missed, lambda slip: f"{slip['said']} should {slip['should']} ({slip['kind']})")
    return {
        "slips caught": Score(len(gold) - len(missed), len(gold), misses=misses),
        "slips held": Score(len(held), len(gold)),
    }


def false_alarms(recording: Recording) -> dict[str, Score]:
    """Holds and queries on what is right. found counts them; note tells how many an hour."""
    excused = [*recording.gold["slips"], *recording.gold["heard"], *recording.gold["order"]]
    alarms = [
        finding for finding in _open_findings(recording)
        if finding["check"] not in APART and not any(touches(fact, finding, recording.slack) for fact in excused)
    ]  # fmt: skip
    scores = {}
    for severity, name in (("hold", "false holds"), ("query", "false queries")):
        of_it = [alarm for alarm in alarms if alarm["severity"] == severity]
        scores[name] = Score(
            len(of_it), misses=_listed("false", of_it, lambda f: f"{f['check']}: {f['said']}: {f['message']}")
        )
    return scores


def misheard(recording: Recording) -> dict[str, Score]:
    """Misheard words offered as what was said."""
    found = [finding for finding in recording.facts["findings"] if finding["check"] == "misheard"]
    gold, slack = recording.gold["heard"], recording.slack

    def offered(fact: Fact, finding: Fact) -> bool:
        shown = f"{finding['expected'] or ''} {(finding['fix'] or {}).get('caption') or ''}"
        return plain(fact["meant"]) in plain(shown) or alike(fact["meant"], finding["expected"])

    missed = [
        fact for fact in gold if not any(touches(fact, finding, slack) and offered(fact, finding) for finding in found)
    ]
    true = [finding for finding in found if any(touches(fact, finding, slack) for fact in gold)]
    misses = _listed("missed", missed, lambda fact: f"{fact['said']} for {fact['meant']}")
    misses += _listed("extra", _left(found, true), lambda finding: f"{finding['said']} as {finding['expected']}")
    return {"misheard": Score(len(gold) - len(missed), len(gold), len(found), len(true), misses=misses)}


# --- the job


def chapters(recording: Recording) -> dict[str, Score]:
    """Chapter marks after the first, within the slack, and WindowDiff."""
    gold = [{"t": fact["t"], "topic": fact["topic"]} for fact in recording.gold["chapters"][1:]]
    found = [fact for fact in recording.facts["chapters"] if fact["start"] > 0.5]
    total, _ = _matched(gold, found, lambda *_: True, recording.mark_slack)
    difference = window_diff(
        [fact["t"] for fact in gold], [fact["start"] for fact in found], recording.gold["duration"]
    )
    total.note = f"WindowDiff {difference:.2f}"
    return {"chapters": total}


def window_diff(true: Sequence[float], found: Sequence[float], duration: float) -> float:
    """Share of windows, each half a mean segment long and a second on from the last, that hold another number of marks than they should.

    Pevzner and Hearst, "A critique and improvement of an evaluation metric for text segmentation", Computational Linguistics 28 (2002), from memory.
    """
    seconds = int(duration)
    width = max(2, round(seconds / (len(true) + 1) / 2))
    windows = range(seconds - width)
    inside = lambda marks, at: sum(at < mark <= at + width for mark in marks)  # noqa: E731
    return sum(inside(true, at) != inside(found, at) for at in windows) / max(1, len(windows))


def says_the_same(one: Fact, other: Fact) -> bool:
    """Whether two steps share two words that carry them, and a third of the shorter one's."""
    wanted, given = set(plain(one["text"]).split()), set(plain(other["text"]).split())
    return len(wanted & given) >= max(2, min(len(wanted), len(given)) / 3)


def steps(recording: Recording) -> dict[str, Score]:
    """Steps that say what a marked step says, by the words that carry it; and steps in which talk is left."""

    found = recording.facts["steps"]
    total, _ = _matched(recording.gold["steps"], found, says_the_same, 1.5 * recording.mark_slack)
    talk = sum(TALK.search(step["text"]) is not None for step in found)
    total.note = f"{talk} with talk left" if talk else ""
    return {"steps": total}


def hazards(recording: Recording) -> dict[str, Score]:
    """Hazards warned of, each once."""
    wanted = {fact["id"] for fact in recording.gold["hazards"]}
    given = {caution["hazard"] for caution in recording.facts["cautions"]}
    misses = [f"missed: {name}" for name in sorted(wanted - given)] + [
        f"extra: {name}" for name in sorted(given - wanted)
    ]
    return {"hazards": Score(len(wanted & given), len(wanted), len(given), misses=misses)}


def owed(recording: Recording) -> dict[str, Score]:
    """Promises to viewers."""
    return {"owed": _matched(recording.gold["owed"], recording.facts["owed"], lambda *_: True, recording.slack + 4)[0]}


def order(recording: Recording) -> dict[str, Score]:
    """Steps that the speaker says were done too late."""
    found = [finding for finding in recording.facts["findings"] if finding["check"] == "order"]
    missed = [
        fact
        for fact in recording.gold["order"]
        if not any(touches(fact, finding, recording.slack) for finding in found)
    ]
    expected = len(recording.gold["order"])
    return {
        "order": Score(
            expected - len(missed), expected, len(found), misses=_listed("missed", missed, lambda fact: fact["said"])
        )
    }


MEASURES = (
    torques,
    tool_sizes,
    other_values,
    kit,
    slips,
    false_alarms,
    misheard,
    chapters,
    steps,
    hazards,
    owed,
    order,
)
