"""When a value said is the value meant: rounding as people round, and no more.

A value said in the row's own unit agrees to half of its last digit. One said in another unit was converted and may have been rounded or cut off, so
it may lie up to a whole last digit away. Conversions of anything but torque are also rounded to two figures ("sixty thousand kilometres, call it
thirty-seven thousand miles"). Common practice.
"""

from decimal import Decimal

from witnessmark.quantity import Amount
from witnessmark.units import convert, dimension

TWO_FIGURES = Decimal(
    "0.035"
)  # share by which a figure rounded to two digits is off at most, but for the smallest leading digits
HALF = Decimal("0.5")
ROUNDED_UP = Decimal(
    "0.05"
)  # share by which a converted torque is told too high at most, where that is more than half a digit


FRACTIONED = frozenset({"in", "ft", "qt", "pt", "gal", "turn", "imp qt", "imp pt", "imp gal"})


def last_digit(x: Decimal, unit: str) -> Decimal:
    """The worth of a figure's last digit: 1 for 25, 0.1 for 2.5; in inches and the like a quarter for 1.25, since people say quarters."""
    exponent = x.normalize().as_tuple().exponent if x == x.to_integral_value() else x.as_tuple().exponent
    if not isinstance(exponent, int):
        raise ValueError(f"{x} is no figure")
    if unit in FRACTIONED:
        for parts in (2, 4, 8, 16, 32, 64):
            if exponent < 0 and x * parts == (x * parts).to_integral_value():
                return Decimal(1) / parts
    return Decimal(1).scaleb(min(exponent, 0))


def same_figure(said: Decimal, said_unit: str, meant: Decimal, meant_unit: str) -> bool:
    """Whether one figure said can be the other as people round. Both units must measure the same thing."""
    there = convert(meant, meant_unit, said_unit)
    slack = last_digit(said, said_unit)
    if said_unit == meant_unit:
        return abs(said - there) <= slack * HALF * Decimal("1.0001") if said != there else True
    if dimension(said_unit) != "torque":
        slack = max(slack, abs(there) * TWO_FIGURES)
    elif said - there > max(slack * HALF, there * ROUNDED_UP):
        return False  # 2.2 lbf·ft is rounded or cut off to 2, and never told as 3: that is the figure of the other unit
    return abs(said - there) < slack


def agrees(said: Amount, meant: Amount) -> bool:
    """Whether an amount said fits an amount specified: the same figure, inside the range, on the right side of a bound."""
    if dimension(said.unit) != dimension(meant.unit):
        return False
    if meant.bound == "min":
        return _at_least(said.low, said.unit, meant.low, meant.unit)
    if meant.bound == "max":
        return _at_most(said.high, said.unit, meant.high, meant.unit)
    if meant.low == meant.high:
        return same_figure(said.low, said.unit, meant.low, meant.unit) and same_figure(
            said.high, said.unit, meant.high, meant.unit
        )
    return _at_least(said.low, said.unit, meant.low, meant.unit) and _at_most(
        said.high, said.unit, meant.high, meant.unit
    )


def _at_least(said: Decimal, said_unit: str, least: Decimal, unit: str) -> bool:
    return convert(said, said_unit, unit) >= least or same_figure(said, said_unit, least, unit)


def _at_most(said: Decimal, said_unit: str, most: Decimal, unit: str) -> bool:
    return convert(said, said_unit, unit) <= most or same_figure(said, said_unit, most, unit)


def pair_agrees(one: Amount, other: Amount) -> bool:
    """Whether two amounts said of one thing in two units can both be right: each may have been rounded."""
    return _rounds_to(one, other) and _rounds_to(other, one)


def _rounds_to(one: Amount, other: Amount) -> bool:
    """Whether some figure that would be said as `one` is said as `other` in its unit."""
    for end in ("low", "high"):
        said, meant = getattr(other, end), getattr(one, end)
        half = last_digit(meant, one.unit) * HALF
        low, high = (convert(meant + side, one.unit, other.unit) for side in (-half, half))
        slack = last_digit(said, other.unit)
        if dimension(other.unit) != "torque":
            slack = max(slack, abs(said) * TWO_FIGURES)
        if not low - slack < said < high + slack:
            return False
    return True
