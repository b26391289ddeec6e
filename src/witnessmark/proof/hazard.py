"""A danger of the work that the speaker never warns of.

*said*: now compress the spring · *found*: a caution is due here, and none is spoken; the guide has it.
Source: each hazard names its rule or standard in data/hazards.toml; when one is due is common practice.
"""

from collections.abc import Iterator

from witnessmark.language.speech import Speech, breaks_after
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix

NAME = "hazard"
QUOTED = 8  # tokens told of what gives a danger away


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every caution without words of the speaker's own; those that may kill or maim are queries."""
    speech = evidence.reading.speech
    for caution in evidence.cautions:
        if caution.spoken is not None:
            continue
        first, end = caution.start_token, _end(speech, caution.start_token)
        message = f"{caution.title}: a caution is due here, and the recording does not speak it. {caution.text}"
        fix = Fix(question="Say it, show it on screen, or rely on the guide, which has it?")
        yield Finding(
            NAME,
            "query" if caution.signal == "DANGER" else "note",
            caution.start,
            speech.tokens[end - 1].end,
            speech.said(first, end),
            message,
            caution.avoid,
            None,
            None,
            fix,
        )


def _end(speech: Speech, first: int) -> int:
    last = min(first + QUOTED, len(speech.tokens))
    return next((i + 1 for i in range(first, last) if breaks_after(speech, i)), last)
