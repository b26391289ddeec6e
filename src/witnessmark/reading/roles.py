"""How a value is meant: told as what to do, measured, taken back, warned against, hearsay, or said of another machine."""

from collections.abc import Sequence
from typing import Literal

from witnessmark.language.cues import Cues, find_cues
from witnessmark.reading.figures import Talk
from witnessmark.reading.kinds import Measured
from witnessmark.reading.sightings import Sighting

COMPARED_REACH = 9  # tokens between what was measured and what it should be
BREAKS = frozenset({".", "?", "!"})
COUNTED_UNITS = frozenset(
    {"inch", "foot", "litre", "liter", "pint", "quart", "gallon", "pound", "ton", "volt", "watt", "amp"}
)

Role = Literal["stated", "measured", "retracted", "warned", "hearsay", "other_machine", "of_tool"]


class RoleRules:
    """Roles over one recording. starts of `found` must be in order."""

    def __init__(
        self, talk: Talk, found: Sequence[Measured], sightings: Sequence[Sighting], title: frozenset[str]
    ) -> None:
        self._talk, self._title = talk, title
        self._torque_tools = sorted(
            {s.start for s in sightings if s.kind == "tool" and "torque" in s.name}
            | {start for start, _ in talk.cues.spans.get("torque_tool", ())}
        )
        self._tools = {s.start for s in sightings if s.kind == "tool"}
        self._parts = {s.start for s in sightings if s.kind == "part"}
        self._fasteners = [s.start for s in sightings if s.kind == "fastener"]
        self._machines: Cues = find_cues(talk.texts, "machines")
        self._found = found
        self._elsewhere: set[int] = set()  # starts of figures said of another machine
        self._starts = [one.figure.start for one in found]

    def role(self, index: int) -> Role:
        """The role of the index-th figure."""
        figure = self._found[index].figure
        if self._retracted(index):
            return "retracted"
        low, high = self._talk.clause(figure.start, 10, 6)
        low = max(low, self._previous_end(index))
        # The "no" of "110, no, sorry, 120" takes the 110 back; it does not warn of the 120.
        corrected = index > 0 and self._retracted(index - 1)
        if not corrected and self._warned(low, figure.start):
            return "warned"
        if self._hearsay(figure.start):
            return "hearsay"
        if self._of_other_machine(index):
            return "other_machine"
        if self._of_tool(index):
            return "of_tool"
        if self._found[index].kind not in ("torque", "tool_size", "grade") and (
            self._measured(low, high, figure.start) or self._compared(index)
        ):
            return "measured"
        return "stated"

    def specified(self, index: int) -> bool:
        """Whether a figure is told as what it should be: "the book says", "takes", "every"."""
        figure = self._found[index].figure
        low, high = self._talk.clause(figure.start, 10, 4)
        low = max(low, self._previous_end(index) if not figure.is_range else low)
        cues = self._talk.cues
        return cues.has("specified", low, high) or cues.has("trusted", low, high)

    def untouched(self, index: int) -> bool:
        """Whether the speaker says that the thing is left alone."""
        low, high = self._talk.clause(self._found[index].figure.start, 14, 22)
        return self._talk.cues.has("untouched", low, high)

    def retraction(self, index: int) -> tuple[int, int] | None:
        """Tokens between a figure that is taken back and the one said instead: what is named there belongs to the former."""
        if not self._retracted(index) or self._found[index].figure.low == self._found[index + 1].figure.low:
            return None  # "twenty, no, that's the pins, twenty newton metres": the same figure once more, and of what
        return self._found[index].figure.end, self._starts[index + 1]

    def _previous_end(self, index: int) -> int:
        return self._found[index - 1].figure.end if index else 0

    def _retracted(self, index: int) -> bool:
        """ "thirty no sorry thirty eight": words of correction right after, and another figure of the kind soon."""
        if index + 1 >= len(self._found):
            return False
        one, following = self._found[index], self._found[index + 1]
        gap = following.figure.start - one.figure.end
        if not 0 < gap <= 16 or (one.kind != following.kind and not one.inferred):
            return False
        corrections = self._talk.cues.between("correction", one.figure.end, following.figure.start)
        fillers = ("uh", "um", "er", "erm", "oh", ",", ".", "but", "it", "that")
        opens = any(
            all(word in fillers for word in self._talk.texts[one.figure.end : start]) for start, _ in corrections
        )
        strong = any(self._talk.texts[start:end] != ("no",) for start, end in corrections) or gap <= 3
        return opens and (strong or any(self._of_another_thing(end) for _, end in corrections))

    def _of_another_thing(self, at: int) -> bool:
        """ "No. That's the tank": what was said is told to be of something else."""
        at += self._talk.text(at) in (",", ".")
        told = self._talk.texts[at : at + 2] in (("that", "'s"), ("that", "is"), ("that", "was"), ("those", "are"))
        return told and self._talk.text(at + 2) in ("the", "for", "your", "my")

    def _warned(self, low: int, at: int) -> bool:
        """ "do not go to thirty": a negation of going there, not of something else in the same breath."""
        for _, end in self._talk.cues.between("negation", low, at):
            between = self._talk.texts[end:at]
            going = any(word in _GOING for word in between[:2]) and not any(word in _TOLD for word in between)
            if len(between) <= 6 and (len(between) <= 1 or going):
                return True
        return False

    def _hearsay(self, start: int) -> bool:
        low, high = self._talk.clause(start, 20, 8)
        spans = self._talk.cues.between("hearsay", low, high)
        if not spans:
            return False
        trusted = self._talk.cues.between("trusted", low, start)
        return not trusted or max(span[0] for span in trusted) < max(
            (span[0] for span in spans if span[0] < start), default=-1
        )

    def _of_other_machine(self, index: int) -> bool:
        """ "on my truck it's a hundred": another machine named just before the value, or right after it behind "on" or "for"."""
        start, end = self._found[index].figure.start, self._found[index].figure.end
        low, high = self._talk.clause(start, 14, 8)
        before = [one for one in self._found[max(0, index - 3) : index] if one.kind != "count"]
        if before:
            low = max(low, before[-1].figure.end)
            # What was said of another machine goes on for as long as the breath does.
            if (
                before[-1].figure.start in self._elsewhere
                and start - before[-1].figure.end <= 9
                and not self._machines.has("this", low, start)
            ):
                return True
        for noun, _ in self._machines.between("noun", low, high):
            if start <= noun < end or self._machines.has("this", noun - 3, noun):
                continue
            lead = self._talk.texts[max(0, noun - 6) : noun]
            placed = any(word in ("on", "for", "in", "of") for word in lead)
            if self._is_other(noun) and (noun < start or (placed and noun - end <= 6)):
                self._elsewhere.add(start)
                return True
        return False

    def _is_other(self, noun: int) -> bool:
        """ "my truck", "the bigger model"; "the other one" is mostly another bolt."""
        words = self._machines
        if words.has("variant", noun, noun + 2) and self._talk.text(noun) not in self._title:
            return self._talk.texts[max(0, noun - 2) : noun] in (("on", "the"), ("for", "the"), ("with", "the"))
        if self._talk.text(noun) in ("one", "ones"):
            return words.has("other_one", noun - 2, noun)
        owned = words.has("owner", noun - 3, noun) or words.has("someone", noun - 6, noun)
        return owned or words.has("other", noun - 3, noun)

    def _of_tool(self, index: int) -> bool:
        """ "a torque wrench that runs from one to six": the scale of a tool, before any fastener is named."""
        one = self._found[index]
        if one.drive or self._describes(one) or self._counterholds(one):
            return True
        if one.kind not in ("torque", "count"):
            return False
        start = one.figure.start if not one.figure.partner else min(one.figure.start, one.figure.partner.start)
        tools = [tool for tool in self._torque_tools if start - 30 <= tool < start]
        if not tools or any(tools[-1] < place < start for place in self._fasteners):
            return False
        return self._talk.cues.has("scale", tools[-1], start) or one.figure.is_range

    def _counterholds(self, one: Measured) -> bool:
        """The size of the tool that keeps the other end still: "hold the pin itself with a thin 17 wrench", "the 6 mil goes in
        the end to hold it", "the 21 ring spanner and the 6 down the middle".
        """
        if one.kind != "tool_size":
            return False
        start = one.figure.start
        if self._talk.cues.has("in_the_end", one.figure.end, one.figure.end + 7):
            return True
        low, _ = self._talk.clause(start, 9, 0)
        holds = self._talk.cues.between("counterhold", low, start)
        return bool(holds) and "with" in self._talk.texts[holds[-1][1] : start]

    def _describes(self, one: Measured) -> bool:
        """ "a three pound hammer", "the whole five litre can", "10 mm in from the edge": tells a tool, a vessel or a place from others."""
        end = one.figure.end
        if one.inferred or one.kind in ("tool_size", "grade"):
            return False
        if one.kind == "length" and self._talk.cues.has("place_from", end, end + 2):
            return True
        unit = self._talk.text(end - 1)
        adjective = one.kind != "torque" and not unit.endswith("s")
        told = bool(self._tools & {end, end + 1}) or self._talk.cues.has("vessel", end, end + 1)
        # "ten inch blade": a unit that would be in the plural if the figure were told of something
        return adjective and (told or (unit in COUNTED_UNITS and one.figure.low > 1 and end in self._parts))

    def _compared(self, index: int) -> bool:
        """ "main to earth is 41 ohms and the sheet wants 62 to 70": one told plainly, then at once what it should be, was measured."""
        one = self._found[index]
        low, _ = self._talk.clause(one.figure.start, 10, 0)
        low = max(low, self._previous_end(index))
        cues = self._talk.cues
        told = cues.has("specified", low, one.figure.start) or cues.has("trusted", low, one.figure.start)
        if index + 1 == len(self._found) or one.kind in ("interval", "duration", "distance") or told:
            return False
        following = self._found[index + 1]
        start, end = one.figure.end, following.figure.start
        if following.kind != one.kind or end - start > COMPARED_REACH or one.figure.is_range:
            return False
        return cues.has("compared", start, end) and not any(word in BREAKS for word in self._talk.texts[start:end])

    def _measured(self, low: int, high: int, at: int) -> bool:
        """The nearest word that tells decides: "the book says two", "the ruler says nine"."""
        cues = self._talk.cues
        told = max(
            (span[1] for span in cues.between("specified", low, at) + cues.between("trusted", low, at)), default=-1
        )
        seen = max((span[1] for span in cues.between("measured", low, at)), default=-1)
        if seen < 0:
            left = self._talk.text(high - 1) if high - at < 4 else ""
            return told < 0 and (cues.has("measured", at, min(high, at + 6)) or left == "left")
        return seen >= told


_GOING = frozenset(
    [
        "go",
        "going",
        "use",
        "using",
        "take",
        "tighten",
        "torque",
        "exceed",
        "over",
        "above",
        "crank",
        "give",
        "set",
        "put",
        "fit",
        "do",
    ]
)
# "do n't be shy with it this gets 42": what comes after these is told again
_TOLD = frozenset(["gets", "get", "this", "these", "is", "'s", "are", "wants", "takes", "needs", "it's"])
