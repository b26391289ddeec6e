"""Time expressions of TTML2 (W3C, section 12.3 <time-expression>) and the parameters they depend on.

Media time and SMPTE time are computed as the standard's appendix on time expression semantics says; its drop-frame
formula is given here *from memory*.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

_CLOCK = re.compile(r"([0-9]{2,9}):([0-9]{2}):([0-9]{2})(?:(\.[0-9]{1,12})|:([0-9]{2,9})(?:\.([0-9]{1,9}))?)?")
_OFFSET = re.compile(r"([0-9]{1,15}(?:\.[0-9]{1,12})?)(h|ms|m|s|f|t)")
_UNIT_SECONDS = {"h": Fraction(3600), "m": Fraction(60), "s": Fraction(1), "ms": Fraction(1, 1000)}
_RATIO = re.compile(r"([0-9]{1,9})[ :]([0-9]{1,9})")


@dataclass(frozen=True, slots=True)
class TimeBase:
    """How a document counts.

    frame_rate: counted frames a second; multiplier: real over counted; tick_rate: ticks a second; sub_frames: parts
    of a frame.
    """

    frame_rate: Fraction = Fraction(30)
    multiplier: Fraction = Fraction(1)
    tick_rate: Fraction = Fraction(1)
    sub_frames: int = 1
    smpte: bool = False
    drop_frames: bool = False

    def seconds(self, expression: str) -> float:
        """Seconds of a clock time (`00:04:07.5`, `00:04:07:12`) or an offset time (`247.5s`, `12m`, `12ms`, `153f`,
        `900t`). Raises ValueError.
        """
        expression = expression.strip()
        if clock := _CLOCK.fullmatch(expression):
            return float(self._clock(*clock.groups()))
        if offset := _OFFSET.fullmatch(expression):
            return float(self._offset(Fraction(offset[1]), offset[2]))
        raise ValueError(f"{expression[:40]!r} is no TTML time")

    def _clock(
        self, hours: str, minutes: str, secs: str, fraction: str | None, frames: str | None, sub: str | None
    ) -> Fraction:
        whole = int(hours) * 3600 + int(minutes) * 60 + int(secs)
        counted = Fraction(int(frames or 0)) + Fraction(int(sub or 0), self.sub_frames)
        if self.smpte:
            total_minutes = int(hours) * 60 + int(minutes)
            dropped = 2 * (total_minutes - total_minutes // 10) if self.drop_frames else 0
            return (whole * self.frame_rate + counted - dropped) / (self.frame_rate * self.multiplier)
        return whole + Fraction(fraction or 0) + counted / (self.frame_rate * self.multiplier)

    def _offset(self, count: Fraction, unit: str) -> Fraction:
        if unit == "f":
            return count / (self.frame_rate * self.multiplier)
        return count / self.tick_rate if unit == "t" else count * _UNIT_SECONDS[unit]


def time_base(parameters: Mapping[str, str]) -> TimeBase:
    """The time base set by the root element's parameters (frameRate, tickRate, ..., by local name).

    Raises ValueError on a bad one.
    """
    frame_rate = _positive(parameters, "frameRate", 30)
    sub_frames = _positive(parameters, "subFrameRate", 1)
    multiplier = Fraction(1)
    if ratio := parameters.get("frameRateMultiplier"):
        found = _RATIO.fullmatch(ratio.strip())
        if not found or not int(found[1]) or not int(found[2]):
            raise ValueError(f"frameRateMultiplier {ratio[:40]!r} is not two numbers")
        multiplier = Fraction(int(found[1]), int(found[2]))
    ticks = frame_rate * multiplier * sub_frames if "frameRate" in parameters else Fraction(1)
    if "tickRate" in parameters:
        ticks = Fraction(_positive(parameters, "tickRate", 1))
    smpte = parameters.get("timeBase") == "smpte"
    drop = parameters.get("dropMode") == "dropNTSC"
    return TimeBase(Fraction(frame_rate), multiplier, ticks, sub_frames, smpte, drop)


def _positive(parameters: Mapping[str, str], name: str, default: int) -> int:
    text = parameters.get(name, str(default)).strip()
    if not re.fullmatch(r"[0-9]{1,9}", text) or not int(text):
        raise ValueError(f"{name} {text[:40]!r} is not a number above 0")
    return int(text)
