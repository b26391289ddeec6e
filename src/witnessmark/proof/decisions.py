"""What the creator decided about findings: `decisions.toml` in the project's folder.

A decision is tied to what was said, of which item, by which check, and to the words around it, never to a time: it
survives a shift of all times and a corrected typo nearby. A decision that fits nothing any more is told, never dropped.
The file is only ever added to, so that what a person writes in it stays; of two decisions on one, the later counts.
"""

import json
import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Annotated, Any, Literal, get_args

from pydantic import BaseModel, ConfigDict, Field, ValidationError
from rapidfuzz import fuzz

from witnessmark.errors import InputError
from witnessmark.language.numbers import read_numbers
from witnessmark.language.speech import Speech
from witnessmark.language.tokens import PUNCTUATION
from witnessmark.language.vocabulary import tokens_of
from witnessmark.nearest import not_known
from witnessmark.proof.model import Finding, Ruling
from witnessmark.proof.wording import card
from witnessmark.size_limit import check_file
from witnessmark.specs.table import same_name

FILE = "decisions.toml"
HEAD = """# Decisions on findings, written by `witnessmark settle`. You may edit and comment this file by hand.
# decision: "keep" (it stays as said), "manual" (the table's value counts), "value" (another value counts, given as
# value) or "no mistake" (the finding is wrong). reason: why, in your words.
"""
Kind = Literal["keep", "manual", "value", "no mistake"]
KINDS: tuple[Kind, ...] = get_args(Kind)
REACH = 12  # words kept before and after what was said
SLACK = 1e-3  # seconds; facts are rounded to thousandths
ALIKE = 0.5  # share of those words that must still be there
SMALL, FEW = 3, 2  # letters of a small word; telling words that are enough to go by
SAME_WORDS = 75  # likeness, in percent, of words said that have the same figures

Text = Annotated[str, Field(min_length=1)]


@dataclass(frozen=True, slots=True)
class Decision:
    """One decision. said, item, check: of the finding. before, after: the words around. number: in the file, from 1."""

    check: str
    said: str
    decision: Kind
    item: str = ""
    before: str = ""
    after: str = ""
    reason: str = ""
    value: str = ""
    number: int = 0


class _Entry(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True, str_strip_whitespace=True)
    check: Text
    said: Text
    decision: Kind
    item: str = ""
    before: str = ""
    after: str = ""
    reason: str = ""
    value: str = ""


def read_decisions(folder: Path) -> tuple[Decision, ...]:
    """All decisions of a project, in file order; () where there are none. Raises InputError that names the key."""
    try:
        check_file(folder / FILE, FILE, "a list of decisions")
        text = (folder / FILE).read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        return ()
    except (OSError, UnicodeDecodeError) as why:
        raise InputError(FILE, f"it cannot be read ({why.__class__.__name__})", "save it as UTF-8 text") from None
    return _parsed(text)


def _parsed(text: str) -> tuple[Decision, ...]:
    try:
        data = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as why:
        raise InputError(
            FILE, f"this is not TOML: {why}", "mend that line, or delete the entry and settle it again"
        ) from None
    unknown = next((key for key in data if key != "decision"), None)
    if unknown is not None or not isinstance(data.get("decision", []), list):
        raise InputError(
            FILE, f"{unknown or 'decision'!r} is not expected here", "begin each decision with [[decision]]"
        )
    return tuple(_decision(number, entry) for number, entry in enumerate(data.get("decision", []), 1))


def _decision(number: int, entry: Any) -> Decision:
    try:
        read = _Entry.model_validate(entry)
    except ValidationError as why:
        errors = why.errors(include_url=False, include_context=False, include_input=False)
        # An unknown key comes first: "chek" explains why "check" is missing.
        raise _wrong(number, min(errors, key=lambda each: each["type"] != "extra_forbidden")) from None
    if read.decision == "value" and not read.value:
        raise InputError(
            f"{FILE} decision {number}", "it has no value", 'write value = "35 N·m" with the value that counts'
        )
    return Decision(**read.model_dump(), number=number)


def _wrong(number: int, error: Any) -> InputError:
    key = str(error["loc"][0]) if error["loc"] else "decision"
    where = f"{FILE} decision {number} key {key}"
    if error["type"] == "extra_forbidden":
        remedy = f"rename or delete it; known are {', '.join(_Entry.model_fields)}"
        return InputError(where, not_known("this key", key, _Entry.model_fields), remedy)
    if error["type"] == "missing":
        return InputError(where, "it is missing", "write it, or delete the entry and settle the finding again")
    remedy = f"write one of {', '.join(KINDS)}" if key == "decision" else "write a text in quotation marks"
    return InputError(where, "the value is of the wrong kind", remedy)


def apply_decisions(
    findings: Sequence[Finding], decisions: Sequence[Decision], speech: Speech
) -> tuple[tuple[Finding, ...], tuple[Decision, ...]]:
    """Findings with what was decided of them, and the decisions that fit none.

    Each decision settles one finding: the one with the most of its words around it. A later decision on the same one
    takes the earlier one's place.
    """
    contexts = [words_around(finding, speech) for finding in findings]
    settled = list(findings)
    taken: dict[int, Decision] = {}
    stale = []
    for decision in reversed(decisions):
        scores = [
            (_likeness(decision, finding, around), i)
            for i, (finding, around) in enumerate(zip(findings, contexts, strict=True))
        ]
        best = [each for each in scores if each[0] >= ALIKE]
        free = [each for each in best if each[1] not in taken or _same_target(taken[each[1]], decision)]
        if not free:
            stale.append(decision)
            continue
        _, i = max(free, key=lambda each: (each[0], -each[1]))
        if i not in taken:
            taken[i] = decision
            settled[i] = _settle(findings[i], decision)
    return tuple(settled), tuple(reversed(stale))


def _same_target(one: Decision, other: Decision) -> bool:
    """Whether two entries were made of one finding, so that the later takes the earlier one's place."""
    return (one.check, one.item, one.said, one.before, one.after) == (
        other.check,
        other.item,
        other.said,
        other.before,
        other.after,
    )


def words_around(finding: Finding, speech: Speech) -> tuple[list[str], list[str]]:
    """The words before and after what a finding is about."""
    words = speech.transcript.words
    first = bisect_left(words, finding.start - SLACK, key=lambda word: word.start)
    end = bisect_left(words, finding.end - SLACK, key=lambda word: word.start)
    return [word.text for word in words[max(0, first - REACH) : first]], [
        word.text for word in words[end : end + REACH]
    ]


def _likeness(decision: Decision, finding: Finding, around: tuple[list[str], list[str]]) -> float:
    """From 0 to 1: 0 where check, item or words said differ, else the share of words around still there."""
    if (
        decision.check != finding.check
        or same_name(decision.item) != same_name(finding.item or "")
        or not _same_said(decision.said, finding.said)
    ):
        return 0.0
    there = [*_plain(" ".join(around[0])), *_plain(" ".join(around[1]))]
    known = [*_plain(decision.before), *_plain(decision.after)]
    # Small words, and the item's own, stand around whatever is said of it.
    telling = [word for word in known if len(word) > SMALL and word not in _plain(decision.item)]
    known = telling if len(telling) >= FEW else known
    return sum(_has(word, there) for word in known) / len(known) if known else 1.0


def _has(word: str, words: list[str]) -> bool:
    return word in words or (len(word) > 3 and any(fuzz.ratio(word, other) >= SAME_WORDS for other in words))


def _same_said(one: str, other: str) -> bool:
    """The same words but for a typo; the same figures in any case."""
    first, second = _plain(one), _plain(other)
    if first == second:
        return True
    figures = ([number.value for number in read_numbers(words)] for words in (first, second))
    same_figures = next(figures) == next(figures)
    return same_figures and fuzz.ratio(" ".join(first), " ".join(second)) >= SAME_WORDS


def _plain(text: str) -> list[str]:
    return [token for token in tokens_of(text) if token not in PUNCTUATION]


def settled_as(decision: Decision) -> str:
    """What a decision makes of its finding, with the reason, as one line."""
    line = {
        "keep": "kept as said",
        "manual": "the manual's value counts",
        "value": f"{decision.value} counts",
        "no mistake": "not a mistake",
    }[decision.decision]
    return f"{line}: {decision.reason}" if decision.reason else line


def _settle(finding: Finding, decision: Decision) -> Finding:
    """A finding with its decision; what is kept needs no correction, another value has its own."""
    settled = settled_as(decision)
    ruling = Ruling(decision.decision, decision.number, decision.value, decision.reason)
    finding = replace(finding, ruling=ruling)
    if decision.decision == "manual":
        return replace(finding, settled=settled)
    if decision.decision == "value":
        fix = replace(
            card(f"Correction: {finding.item or finding.said} {decision.value}", finding.start), caption=decision.value
        )
        return replace(finding, settled=settled, fix=fix, expected=decision.value)
    return replace(finding, settled=settled, fix=None)


def add_decision(folder: Path, decision: Decision) -> Path:
    """Write a decision behind what stands in the project's decisions.toml, which is left as it is."""
    path = folder / FILE
    try:
        text = path.read_text(encoding="utf-8-sig") if path.exists() else HEAD
        text = f"{text.rstrip()}\n\n{''.join(_lines(decision))}"
        _parsed(text)
        staged = path.with_suffix(".toml.tmp")
        staged.write_text(text, encoding="utf-8", newline="\n")
        staged.replace(path)
    except (OSError, UnicodeDecodeError) as why:
        raise InputError(
            str(path),
            f"it cannot be written ({why.__class__.__name__})",
            "check the file, its folder and their permissions",
        ) from None
    return path


def _lines(decision: Decision) -> Iterator[str]:
    yield "[[decision]]\n"
    for key in ("check", "item", "said", "before", "after", "decision", "value", "reason"):
        text = getattr(decision, key)
        if text:
            yield f"{key} = {_quoted(text)}\n"


def _quoted(text: str) -> str:
    """A TOML basic string: JSON's, and the one control character that JSON leaves."""
    return re.sub("\x7f", r"\\u007F", json.dumps(text, ensure_ascii=False))
