"""Misheard words put right before reading: the creator's fixed corrections, then what sounds like the trade's words."""

from collections.abc import Callable, Sequence
from functools import cache

from witnessmark.language.misheard import Term, find_misheard
from witnessmark.language.numbers import read_numbers
from witnessmark.language.unit_words import match_units
from witnessmark.language.vocabulary import terms, tokens_of
from witnessmark.project import Project
from witnessmark.specs.table import SpecTable

TABLE_WEIGHT, VOCABULARY_WEIGHT = 1.0, 0.4
Corrected = tuple[int, int, str, str, bool]


def corrector(project: Project, table: SpecTable) -> Callable[[Sequence[str]], list[Corrected]]:
    """Finds what to read in place of misheard words: (start, end, meant, why, confirmed) in token indices, in order.

    confirmed: the project's [heard] says so. All else is offered to the creator and changes no file by itself.
    """
    fixed = [(tokens_of(heard), meant) for heard, meant in project.heard]
    known = _terms(project, table)
    own = {word for name in (project.machine.make, project.machine.model) if name for word in tokens_of(name)}

    def correct(tokens: Sequence[str]) -> list[Corrected]:
        settled = _fixed(tokens, fixed)
        # A number is never read as something else: a wrong figure is for the creator to hear, not for us to explain away.
        numbers = {
            i for number in read_numbers(tokens) if number.form != "ordinal" for i in range(number.start, number.end)
        }
        numbers |= {i for unit in match_units(tokens) if unit.start - 1 in numbers for i in range(unit.start, unit.end)}
        taken = {i for start, end, *_ in settled for i in range(start, end)} | numbers
        found = [
            (one.start, one.end, one.meant, one.why, False)
            for one in find_misheard(tokens, known)
            if taken.isdisjoint(range(one.start, one.end))
            and own.isdisjoint(tokens[one.start : one.end])
            and tokens_of(one.meant) != tuple(tokens[one.start : one.end])
        ]
        return sorted([*settled, *found])

    return correct


def _fixed(tokens: Sequence[str], fixed: Sequence[tuple[tuple[str, ...], str]]) -> list[Corrected]:
    found: list[Corrected] = []
    for i in range(len(tokens)):
        for heard, meant in fixed:
            if heard and tuple(tokens[i : i + len(heard)]) == heard and (not found or i >= found[-1][1]):
                found.append((i, i + len(heard), meant, "the project's [heard] says so", True))
    return found


def _terms(project: Project, table: SpecTable) -> tuple[Term, ...]:
    named = dict.fromkeys(name.casefold() for row in table.rows for name in row.names)
    own = dict.fromkeys(word.casefold() for word in project.glossary)
    return (
        *(Term(name, "item", TABLE_WEIGHT) for name in named),
        *(Term(word, "word", TABLE_WEIGHT) for word in own),
        *vocabulary_terms(),
    )


@cache
def vocabulary_terms() -> tuple[Term, ...]:
    """Every name of the packaged vocabulary."""
    return tuple(Term(form, term.kind, VOCABULARY_WEIGHT) for term in terms() for form in (*term.forms, *term.short))
