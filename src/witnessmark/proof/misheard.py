"""Captions that show other words than were said: they sound like words of the trade, and those fit.

*said*: shine up the break pads · *found*: "break pads" sounds like "brake pads".
Source: common practice; sounds by the CMU Pronouncing Dictionary.
"""

from collections.abc import Iterator

from witnessmark.language.misheard_lexicon import with_its_g
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix, Severity

NAME = "misheard"


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every correction that reading made; one that the project's [heard] confirms is a note.

    A g that a speaker drops (bearin) is put back for reading and is no mistake of the captions.
    """
    words = evidence.reading.speech.transcript.words
    for one in evidence.reading.speech.corrections:
        if not one.confirmed and [with_its_g(word) for word in one.said.casefold().split()] == one.meant.split():
            continue
        message = f'The captions show "{one.said}"; "{one.meant}" was probably said: {one.why.rstrip(".")}.'
        fix = Fix(
            caption=one.meant,
            question=None if one.confirmed else f'Was "{one.meant}" said? Add it to [heard] to correct it everywhere.',
        )
        severity: Severity = "note" if one.confirmed else "query"
        yield Finding(
            NAME, severity, words[one.start].start, words[one.end - 1].end, one.said, message, one.meant, None,
            "the captions misheard a word of the trade", fix,
        )  # fmt: skip
