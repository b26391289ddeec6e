"""What corrected captions write in place of the words captioned: what the creator accepted, and units by house style.

Accepted is what `[heard]` of repair.toml puts right and what a decision settles: another wording or the value that
counts. A doubtful word that nobody settled stays as it is captioned.
"""

import re
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from witnessmark.data import read_toml
from witnessmark.examination import Examination
from witnessmark.house_style import plain
from witnessmark.language.numbers import Number, read_numbers
from witnessmark.language.speech import Correction, Speech
from witnessmark.language.tokens import PUNCTUATION
from witnessmark.language.unit_words import match_units
from witnessmark.proof.misheard import NAME as MISHEARD
from witnessmark.proof.model import Finding
from witnessmark.proof.restated_pair import NAME as RESTATED
from witnessmark.reading.model import Mention

SLACK = 1e-3
"""Seconds; times are rounded to thousandths."""
BETWEEN = 1
"""Words between the two values of a pair that one text may replace together."""
HEARD = "[heard] of repair.toml"
UNIT = "unit in house style"
_BEFORE = re.compile(r"^[\"'(\[“‘]*")
_AFTER = re.compile(r"[.,?!;:)\]\"'”’…]*$")


@dataclass(frozen=True, slots=True)
class Change:
    """One change. first, end: words of the transcript, end exclusive. whole: the text is one value, kept together."""

    first: int
    end: int
    captioned: str
    written: str
    why: str
    whole: bool


@dataclass(frozen=True, slots=True)
class Changes:
    """made: in order, none overlapping. unplaced: settled findings whose words could not be replaced as they stand."""

    made: tuple[Change, ...]
    unplaced: tuple[Finding, ...]


def caption_changes(examination: Examination) -> Changes:
    """The changes of a recording: decisions first, then `[heard]`, then units; what comes first keeps its words."""
    settled = [each for each in examination.findings if each.settled and each.fix and each.fix.caption]
    decided = [(finding, _decided(examination, finding)) for finding in settled]
    taken: set[int] = set()
    made: list[Change] = []
    for change in (*(change for _, change in decided if change), *_heard(examination), *_units(examination)):
        words = range(change.first, change.end)
        if taken.isdisjoint(words) and change.written != change.captioned:
            taken.update(words)
            made.append(change)
    unplaced = tuple(finding for finding, change in decided if change is None)
    return Changes(tuple(sorted(made, key=lambda each: each.first)), unplaced)


def _decided(examination: Examination, finding: Finding) -> Change | None:
    """The change that a settled finding asks for; None where its words are not found as they were said."""
    speech = examination.reading.speech
    place = _place(examination, finding)
    if place is None or finding.fix is None or finding.fix.caption is None:
        return None
    written = _in_place_of(speech, *place, finding.fix.caption)
    return Change(
        *place, _captioned(speech, *place), written, f"{finding.settled} ({finding.id})", bool(finding.mentions)
    )


def _place(examination: Examination, finding: Finding) -> tuple[int, int] | None:
    speech = examination.reading.speech
    spans = [_words(speech, examination.by_id[each]) for each in finding.mentions if each in examination.by_id]
    if finding.check == RESTATED and len(spans) > 1:
        # The text that counts holds both values.
        return (spans[0][0], spans[1][1]) if 0 <= spans[1][0] - spans[0][1] <= BETWEEN else None
    if len(spans) == 1:
        return spans[0]
    words = speech.transcript.words
    first = bisect_left(words, finding.start - SLACK, key=lambda word: word.start)
    count = len(finding.said.split())
    return (first, first + count) if _captioned(speech, first, first + count) == finding.said else None


def _heard(examination: Examination) -> Iterator[Change]:
    """Corrections that `[heard]` confirms, unless a decision says that the words stay."""
    speech = examination.reading.speech
    words = speech.transcript.words
    kept = {each.start for each in examination.findings if each.check == MISHEARD and each.settled and each.fix is None}
    for one in speech.corrections:
        if one.confirmed and words[one.start].start not in kept:
            written = _with_meant(examination, one)
            yield Change(one.start, one.end, one.said, written, HEARD, False)


def _with_meant(examination: Examination, one: Correction) -> str:
    """The words with what was said in them: a word may hold more than what was misheard (`break-pads'`)."""
    for heard in (heard for heard, meant in examination.project.heard if meant == one.meant):
        found = re.search(rf"(?<!\w){_spaced(heard)}(?!\w)", one.said, re.I)
        if found:
            return _capital_like(one.said, f"{one.said[: found.start()]}{one.meant}{one.said[found.end() :]}")
    return _in_place_of(examination.reading.speech, one.start, one.end, one.meant)


def _spaced(heard: str) -> str:
    return r"[\s-]+".join(map(re.escape, re.split(r"[\s-]+", heard.strip())))


def _units(examination: Examination) -> Iterator[Change]:
    """Values said as a number and a unit, and nothing else, whose unit has a sign."""
    speech = examination.reading.speech
    units, kinds = _written_units()
    misread = {i for one in speech.corrections for i in range(one.start, one.end)}
    for mention in examination.reading.mentions:
        amount = mention.amount
        if amount is None or mention.kind not in kinds or amount.unit not in units or mention.short:
            continue
        first, end = _words(speech, mention)
        if mention.inferred or not misread.isdisjoint(range(first, end)) or not _whole_words(speech, mention):
            continue
        number = _number_and_unit(speech, mention)
        if number is not None:
            figure = _figure(speech, mention, number)
            if figure is not None:
                written = _in_place_of(speech, first, end, figure)
                yield Change(first, end, _captioned(speech, first, end), written, UNIT, True)


def _number_and_unit(speech: Speech, mention: Mention) -> Number | None:
    """The number of a mention that is a number with its unit right behind it."""
    tokens = speech.texts[mention.first : mention.end]
    numbers, units = read_numbers(tokens), match_units(tokens)
    if len(numbers) != 1 or not units or mention.amount is None:
        return None
    number, unit = numbers[0], units[-1]
    said_whole = number.start == 0 and unit.start == number.end and unit.end == len(tokens)
    # "mil" may be a length or a volume; of a wrench it is plain which.
    plain_unit = unit.labels == (mention.amount.unit,) or (mention.size and mention.amount.unit in unit.labels)
    return number if said_whole and plain_unit and number.form in ("cardinal", "decimal") else None


def _figure(speech: Speech, mention: Mention, number: Number) -> str | None:
    """The value as it is written: figures as captioned, words in figures; None where that would tell another value."""
    assert mention.amount is not None
    if number.value != mention.amount.low:
        return None
    if not number.written:
        # Of "thirty to thirty five" only the end stands beside the unit.
        return plain(mention.amount) if mention.whole == mention.amount else None
    figures = "".join(speech.texts[mention.first : mention.first + number.end])
    return f"{figures} {mention.amount.unit}" if figures.replace(".", "", 1).isdigit() else plain(mention.amount)


def _whole_words(speech: Speech, mention: Mention) -> bool:
    """Whether the words of a mention hold nothing else: `1.2-bar` does, not the first half of `sixteen-bar-rated`."""
    first, end = _words(speech, mention)
    around = (*speech.tokens[max(0, mention.first - 3) : mention.first], *speech.tokens[mention.end : mention.end + 3])
    return not any(first <= token.word < end and token.text not in PUNCTUATION for token in around)


@cache
def _written_units() -> tuple[frozenset[str], frozenset[str]]:
    table = read_toml("caption_units.toml")
    return frozenset(table["units"]), frozenset(table["kinds"])


def _words(speech: Speech, mention: Mention) -> tuple[int, int]:
    return speech.tokens[mention.first].word, speech.tokens[mention.end - 1].word + 1


def _captioned(speech: Speech, first: int, end: int) -> str:
    return " ".join(word.text for word in speech.transcript.words[first:end])


def _in_place_of(speech: Speech, first: int, end: int, text: str) -> str:
    """A text with the brackets, quotation marks and full stops that stood around the words it replaces."""
    captioned = _captioned(speech, first, end)
    found_before, found_after = _BEFORE.search(captioned), _AFTER.search(captioned)
    before, after = found_before[0] if found_before else "", found_after[0] if found_after else ""
    if "(" not in before:
        after = after.replace(")", "")
    elif ")" not in after:
        before = before.replace("(", "")
    return f"{before}{_capital_like(captioned[len(before) :], text)}{after}"


def _capital_like(captioned: str, text: str) -> str:
    """A text with the capital that begins a sentence, where the words it replaces had one."""
    opens = captioned[:1].isupper() and captioned[1:2].islower() and text[:1].islower()
    return text[0].upper() + text[1:] if opens else text
