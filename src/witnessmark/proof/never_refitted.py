"""A fastener with a torque in the table that comes off and, as the recording tells it, never goes back.

*said*: take out the mount bolts ... and the cover goes on · *found*: the mount bolts come off and nobody puts them back.
Source: common practice.
"""

from collections.abc import Iterator

from witnessmark.language.cues import Cues
from witnessmark.language.vocabulary import key_of
from witnessmark.procedure.model import Step
from witnessmark.procedure.task import FITTING, TAKING
from witnessmark.proof.check_words import clause, find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.wording import row_place, row_text, row_value
from witnessmark.specs.table import SpecRow

NAME = "never-refitted"
SAME_BREATH = 12  # tokens behind a step that still tell of it
LONGEST = 20  # tokens from its start on that tell of what it begins with: more may be done in one step
NEAR = 12  # tokens around a name within which it may be told that the thing comes back
PUT_TOGETHER = 2  # steps that fit or tighten after it: fewer, and the recording is of taking apart only


def check(evidence: Evidence) -> Iterator[Finding]:
    """Items taken off, of which nothing that is said later can be the fitting; one finding an item."""
    words = find_words(evidence.reading.speech.texts, "refitted")
    found: set[str] = set()
    for step in sorted(evidence.procedure.steps, key=lambda each: each.start):
        for item in step.items if step.action in TAKING else ():
            row = next((row for row in evidence.table.rows_of(item, "torque") if not row.to_look_up), None)
            if row is not None and item not in found and _stays_off(evidence, words, step, row):
                found.add(item)
                yield _finding(evidence, step, row)


def _stays_off(evidence: Evidence, words: Cues, step: Step, row: SpecRow) -> bool:
    """Whether nothing can be its fitting: no step, no torque, no word of it, of what it holds or of the whole."""
    after, size = _end(evidence, step), len(evidence.reading.speech.tokens)
    low, high = clause(evidence.reading.speech, step.start_token, after, NEAR, NEAR)
    if words.has("whole", after, size) or words.has("gone", low, high):
        return False
    fitting = [each for each in evidence.procedure.steps if each.start > step.start and each.action in FITTING]
    if len(fitting) < PUT_TOGETHER or any(row.item in each.items for each in fitting):
        return False
    return not _torque_told(evidence, row.item, after) and not _named_again(evidence, words, row, after)


def _end(evidence: Evidence, step: Step) -> int:
    tokens = evidence.reading.speech.tokens
    last = next((i for i in range(step.start_token, len(tokens)) if tokens[i].start >= step.end), len(tokens))
    return min(last + SAME_BREATH, step.start_token + LONGEST, len(tokens))


def _torque_told(evidence: Evidence, item: str, after: int) -> bool:
    """Whether a torque is said of it, or one that may be its own because nothing is named with it."""
    told = [m for m in evidence.mentions if m.kind in ("torque", "angle") and m.role == "stated"]
    own = any(item == m.item or item in m.rivals for m in told)
    return own or any(m.kind == "torque" and m.item is None and m.first >= after for m in told)


def _named_again(evidence: Evidence, words: Cues, row: SpecRow, after: int) -> bool:
    """Whether its name, or a word that tells what it holds, stands by words of putting back."""
    speech = evidence.reading.speech
    shared = {speech.lemmas[first] for first, _ in words.between("shared", 0, len(speech.tokens))}
    telling = {word for name in row.names for word in key_of(name)} - shared
    named = [s.start for s in evidence.reading.sightings if s.item == row.item and s.start >= after]
    held = [i for i in range(after, len(speech.tokens)) if speech.lemmas[i] in telling]
    places = [*((at, "here") for at in named), *((at, "back") for at in held)]
    return any(words.has(group, *clause(speech, at, at + 1, NEAR, NEAR)) for at, group in places)


def _finding(evidence: Evidence, step: Step, row: SpecRow) -> Finding:
    speech = evidence.reading.speech
    last = max(step.start_token + 1, _end(evidence, step) - SAME_BREATH)
    message = (
        f"{row.item} comes off, and the recording never puts it back or tightens it; "
        f"{row_place(row)} says {row_text(row)}."
    )
    return Finding(
        NAME,
        "query",
        step.start,
        step.end,
        speech.said(step.start_token, last),
        message,
        row_text(row),
        row.item,
        "the fitting was cut or left unsaid",
        Fix(question=f"When is {row.item} fitted and tightened? Show it or say it, or say that it stays off."),
        row.origin,
        row_value(row),
    )
