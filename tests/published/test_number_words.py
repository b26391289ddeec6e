"""Number words against num2words, the outside source of every phrase here: what it writes is read back as it was."""

from collections.abc import Iterable
from decimal import Decimal
from math import gcd

from num2words import num2words

from witnessmark.language.numbers import Form, read_numbers

DENOMINATORS = (2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 64)


def words(text: str) -> list[str]:
    """As our tokens are: no hyphens, no commas."""
    return text.replace("-", " ").replace(",", "").split()


def wrong(cases: Iterable[tuple[list[str], Decimal, Form]]) -> list[str]:
    """What is not read as exactly one number of that value and form that takes up all the words; the first few."""
    found = []
    for said, value, form in cases:
        got = [(n.start, n.end, n.value, n.form) for n in read_numbers(said)]
        if got != [(0, len(said), value, form)]:
            found.append(f"{' '.join(said)}: {got}")
    return found[:10]


def test_every_whole_number_to_a_hundred_thousand() -> None:
    """With "and" as in Britain and without as in America."""
    british = [(words(num2words(n)), Decimal(n), "cardinal") for n in range(100_001)]
    american = [([word for word in said if word != "and"], n, form) for said, n, form in british]
    assert wrong(british) == []
    assert wrong(american) == []


def test_decimals() -> None:
    figures = [Decimal(n).scaleb(-places) for places in (1, 2, 3) for n in range(1, 4000)]
    broken = [x for x in figures if x != x.to_integral_value()]
    assert wrong((words(num2words(x)), x.normalize(), "decimal") for x in broken if x == x.normalize()) == []


def part(numerator: int, denominator: int) -> list[str]:
    """The words "three eighths" from num2words' "three" and "eighth"."""
    name = {2: "half", 4: "quarter"}.get(denominator) or num2words(denominator, to="ordinal")
    plural = name if numerator == 1 else "halves" if denominator == 2 else f"{name}s"
    return words(f"{num2words(numerator)} {plural}")


def proper_fractions() -> list[tuple[int, int]]:
    return [(n, d) for d in DENOMINATORS for n in range(1, d) if gcd(n, d) == 1]


def test_fractions() -> None:
    cases = [(part(n, d), Decimal(n) / d, "fraction") for n, d in proper_fractions()]
    assert wrong(cases) == []


def test_mixed_numbers() -> None:
    wholes = (1, 2, 9, 14, 21, 40, 99, 100, 122, 350)
    cases = [
        ([*words(num2words(whole)), "and", *part(n, d)], whole + Decimal(n) / d, "mixed")
        for whole in wholes
        for n, d in proper_fractions()
    ]
    assert wrong(cases) == []


def test_ordinals_below_a_thousand() -> None:
    # "one hundredth" is the fraction, and a thousandth a unit of length.
    cases = [(words(num2words(n, to="ordinal")), Decimal(n), "ordinal") for n in range(1, 1000) if n != 100]
    assert wrong(cases) == []


def test_years() -> None:
    # "nineteen hundred" and "twenty ten" too; from 2030 on "twenty thirty" may as well be two numbers of a list.
    cases = [(words(num2words(n, to="year")), Decimal(n), "cardinal") for n in range(1900, 2030)]
    assert wrong(cases) == []


def test_hundreds_left_out() -> None:
    cases = [
        (words(f"{num2words(hundreds)} {num2words(rest)}"), Decimal(100 * hundreds + rest), "cardinal")
        for hundreds in range(1, 10)
        for rest in range(10, 100)
    ]
    assert wrong(cases) == []
