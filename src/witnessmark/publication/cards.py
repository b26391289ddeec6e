"""The on-screen corrections that findings ask for, in order of time."""

from dataclasses import dataclass

from witnessmark.examination import Examination
from witnessmark.proof.misheard import NAME as MISHEARD
from witnessmark.proof.model import Finding
from witnessmark.publication.timed_text import milliseconds

TOLD = frozenset({"hold", "query"})
"""Severities whose cards are worth a viewer's attention."""


@dataclass(frozen=True, slots=True)
class Card:
    """A text on the screen. start, end: whole milliseconds. findings: those that ask for it, the first one first."""

    start: int
    end: int
    text: str
    findings: tuple[Finding, ...]


def cards_of(examination: Examination) -> tuple[Card, ...]:
    """The cards of all holds and queries.

    A word that the captions misheard was said rightly and needs none. A settled finding follows its decision: what stays
    as said has no card, another value has its own. Two findings that ask for the same text at the same time share one.
    """
    cards: dict[tuple[int, str], Card] = {}
    for finding in sorted(examination.findings, key=lambda each: (each.start, each.id)):
        fix = finding.fix
        if finding.severity not in TOLD or finding.check == MISHEARD:
            continue
        if fix is None or not fix.card or fix.card_in is None or fix.card_out is None:
            continue
        start, end = milliseconds(fix.card_in), milliseconds(fix.card_out)
        shared = cards.get((start, fix.card))
        findings = (*shared.findings, finding) if shared else (finding,)
        cards[start, fix.card] = Card(start, max(start + 1, end), fix.card, findings)
    return tuple(sorted(cards.values(), key=lambda card: (card.start, card.end, card.text)))
