"""Numbers and units as manuals and tables write them: `1 1/4 in`, `15 000 km`, `22 ft-lb`."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from witnessmark.data import read_toml
from witnessmark.units import Unit, units

# A length beyond any figure of the trade; it bounds the work on hostile input.
_DIGITS = "[0-9]{1,12}(?![0-9])"
_MIXED = re.compile(rf"(?:(?P<whole>{_DIGITS})[ -])?(?P<top>{_DIGITS}) ?/ ?(?P<bottom>{_DIGITS})(?![./][0-9])")
_GROUPED = re.compile(r"[0-9]{1,3}(?:,[0-9]{3}){1,3}(?![0-9])|[0-9]{1,3}(?: [0-9]{3}){1,3}(?![0-9])")
_PLAIN = re.compile(rf"{_DIGITS}|(?=\.[0-9])")
_DECIMALS = re.compile(rf"\.({_DIGITS})")
_COMMA_DECIMALS = re.compile(rf"[.,]({_DIGITS})")
_VULGAR = re.compile(r"(?<=[0-9])(?=[¼-¾⅐-⅞])")
# A first letter that may be milli or mega: mV is not MV, while MM is mm.
_CASE_DECIDES = re.compile("[mM][A-ZΩ]")
_NOTHING = "(?!)"
_DOTS = str.maketrans({"⋅": "·", "•": "·", "∙": "·", "×": "x", "º": "°", "˚": "°", "−": "-", "‑": "-", "‐": "-"})


class Unreadable(Exception):
    """A cell says something that cannot be read. problem: what is wrong. remedy: what to write instead."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem, remedy)
        self.problem, self.remedy = problem, remedy


def plain_form(text: str) -> str:
    """The same text with one character for each meaning: one space, one middle dot, one hyphen, fractions as 1/2."""
    text = _VULGAR.sub(" ", text).translate(_DOTS)
    return " ".join(unicodedata.normalize("NFKC", text).replace("⁄", "/").split())


@dataclass(frozen=True, slots=True)
class _Forms:
    """Printed forms by their first character, since most tables need few of them: compiling them all takes a tenth of a second.

    any_case: folded forms whose capitals tell nothing. labels: by key.
    """

    exact: dict[str, list[str]]
    any_case: dict[str, list[str]]
    labels: dict[str, str]


def _by_first(forms: Iterable[str]) -> dict[str, list[str]]:
    grouped: dict[str, list[str]] = {}
    for form in sorted(forms, key=lambda form: (-len(form), form)):
        grouped.setdefault(form[0], []).append(form)
    return grouped


@cache
def _exact(first: str) -> re.Pattern[str]:
    return re.compile(_pattern(_forms().exact.get(first, ())))


@cache
def _any_case(first: str) -> re.Pattern[str]:
    return re.compile(_pattern(_forms().any_case.get(first, ())), re.IGNORECASE)


def _pattern(longest_first: Sequence[str]) -> str:
    parts = [r"[·\-.* ]{0,3}".join(re.escape(part) for part in form.split("·")) for form in longest_first]
    return f"(?:{'|'.join(parts)})" + r"(?![^\W\d_°]|[°²³])" if parts else _NOTHING


def _key(form: str) -> str:
    # "ft-lb", "ft lb" and "ft.lb" are one form.
    return re.sub(r"[·\-.* ]", "", form)


def _written_forms(unit: Unit) -> list[str]:
    # Names in full ("newton metres") stand among the spoken forms; a manual may print them too.
    forms = [unit.label, *unit.written, *unit.spoken, *unit.after_number]
    return [re.sub("°(?=[^·])", "°·", plain_form(form)).replace(" ", "·") for form in forms]


@cache
def _forms() -> _Forms:
    ranked = sorted(
        (place, form, unit.label) for unit in units().values() for place, form in enumerate(_written_forms(unit))
    )
    exact: dict[str, str] = {}
    # Forms that are printed come before forms that are spoken: a table's "mil" is a thousandth of an inch.
    for _, form, label in ranked:
        exact.setdefault(form, label)
    free: dict[str, set[str]] = {}
    told_apart = {form.casefold() for form in exact if _CASE_DECIDES.match(form)}
    for form, label in exact.items():
        if form.casefold() not in told_apart:
            free.setdefault(form.casefold(), set()).add(label)
    any_case = {form: labels.pop() for form, labels in free.items() if len(labels) == 1}
    labels = {_key(form): label for form, label in [*any_case.items(), *exact.items()]}
    return _Forms(_by_first(exact), _by_first(any_case), labels)


def match_unit(text: str, start: int) -> tuple[str, int] | None:
    """Unit written at `start` of a text in plain form: its label and where it ends; None where none stands there."""
    first, labels = text[start : start + 1], _forms().labels
    exact, any_case = _exact(first).match(text, start), _any_case(first.casefold()).match(text, start)
    if exact and (any_case is None or exact.end() >= any_case.end()):
        return labels[_key(exact[0])], exact.end()
    if any_case:
        return labels[_key(any_case[0].casefold())], any_case.end()
    return None


@cache
def _fractions() -> dict[str, str]:
    return dict(read_toml("properties.toml")["fractions"])


@cache
def _fraction_words() -> re.Pattern[str]:
    words = _fractions()
    return re.compile(f"({'|'.join(sorted(words, key=lambda word: -len(word)))})(?: of)?(?: an?)?(?= )", re.IGNORECASE)


def _ratio(top: str, bottom: str) -> Decimal:
    if int(bottom) == 0:
        raise Unreadable(f"{top}/{bottom} divides by nothing", "write the fraction that is meant")
    return Decimal(top) / Decimal(bottom)


def _match_fraction(text: str, start: int) -> tuple[Decimal, int] | None:
    if match := _MIXED.match(text, start):
        return Decimal(match["whole"] or 0) + _ratio(match["top"], match["bottom"]), match.end()
    if match := _fraction_words().match(text, start):
        top, _, bottom = _fractions()[match[1].casefold()].partition("/")
        return _ratio(top, bottom or "1"), match.end()
    return None


def _reject_ambiguous(figure: str, whole: str, decimals: str) -> None:
    # Where the comma is the decimal mark, 1.500 and 1,500 may each mean 1500 or 1.5; a leading zero settles it.
    if len(decimals) == 3 and whole.lstrip("0") and len(whole) <= 3:
        raise Unreadable(
            f"{figure} may mean {whole}{decimals} or {whole},{decimals}",
            f"write {whole}{decimals}, or {whole},{decimals.rstrip('0') or '0'}",
        )


def match_number(text: str, start: int, comma_decimals: bool = False) -> tuple[Decimal, int] | None:
    """Unsigned number at `start` of a text in plain form and where it ends; None where none stands there.

    comma_decimals: the table's decimal mark is the comma (`2,5`); then a comma never groups thousands.
    """
    if found := _match_fraction(text, start):
        return found
    grouped = _GROUPED.match(text, start)
    if grouped and comma_decimals and "," in grouped[0]:
        grouped = None
    if grouped:
        whole, end = grouped[0].replace(",", "").replace(" ", ""), grouped.end()
    elif plain := _PLAIN.match(text, start):
        whole, end = plain[0], plain.end()
    else:
        return None
    if decimals := (_COMMA_DECIMALS if comma_decimals else _DECIMALS).match(text, end):
        if comma_decimals and not grouped:
            _reject_ambiguous(text[start : decimals.end()], whole, decimals[1])
        return Decimal(f"{whole or 0}.{decimals[1]}"), decimals.end()
    if re.compile(r",[0-9]").match(text, end):
        raise Unreadable(
            f"a comma stands inside the number {text[start : end + 2]}", "write a full stop before decimals, as in 2.5"
        )
    return Decimal(whole), end
