"""A turning direction said against the thread.

*said*: this is the left hand thread so this one winds in clockwise · *found*: such a thread tightens anticlockwise.
Source: right-hand threads tighten clockwise (common practice); left-hand joints by data/left_hand_threads.csv.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.language.cues import Cues
from witnessmark.language.speech import Speech
from witnessmark.proof.check_words import clause, find_words
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding, Fix
from witnessmark.proof.thread_hand import Hand, Hands
from witnessmark.proof.wording import card

NAME = "direction"
BEFORE, AFTER = 9, 8  # tokens around the direction in which the action stands
AROUND = 14  # tokens around it in which words make it something else
CORRECTED = 5
_HEADS = frozenset((head,) for head in ["bolt", "bolts", "nut", "nuts", "screw", "screws", "plug", "plugs"])
TURNING = frozenset(["turn", "turns", "turning", "turned", "twist", "twists", "wind", "winds", "screw", "rotate"])


@dataclass(frozen=True, slots=True)
class Turn:
    """A direction said with what it does. start, end: tokens of the direction. clockwise, tightens: as said."""

    start: int
    end: int
    clockwise: bool
    tightens: bool


def check(evidence: Evidence) -> Iterator[Finding]:
    """Every direction whose action and thread are clear."""
    speech = evidence.reading.speech
    words = find_words(speech.texts, "direction")
    hands = Hands(evidence, words)
    for turn in _turns(evidence, words):
        hand = hands.hand_at(turn.start, turn.end)
        if hand is None or hand.known == "may be either" or (turn.clockwise == turn.tightens) != hand.left:
            continue
        if hand.known == "usual" and (
            words.has("unusual", max(0, turn.start - 30), turn.end + 20)
            or not (_turned_by_name(evidence, turn) or hands.sized(turn.start))
        ):
            continue
        yield _finding(speech, turn, hand)


def _turned_by_name(evidence: Evidence, turn: Turn) -> bool:
    """Whether a fastener is named in the same clause, so that the usual rule may be held against the speaker."""
    low, high = clause(evidence.reading.speech, turn.start, turn.end, BEFORE, AFTER)
    return any(s.kind == "fastener" and low <= s.start < high for s in evidence.reading.sightings)


def _turns(evidence: Evidence, words: Cues) -> Iterator[Turn]:
    speech = evidence.reading.speech
    spans = [(*span, True) for span in words.spans.get("clockwise", ())] + [
        (*span, False) for span in words.spans.get("anticlockwise", ())
    ]
    # "anti clockwise" holds a "clockwise".
    spans = [span for span in spans if not any(other[0] < span[0] < other[1] for other in spans)]
    for start, end, clockwise in sorted(spans):
        if _to_a_side(speech, start, end) or _otherwise(evidence, words, start, end, clockwise):
            continue
        tightens = _action(evidence, words, start, end)
        if tightens is not None:
            yield Turn(start, end, clockwise, tightens)


def _to_a_side(speech: Speech, start: int, end: int) -> bool:
    """Whether "to the left" is a place: no word of turning before it, or a thing with sides after it."""
    if speech.texts[start] != "to":
        return False
    low, _ = clause(speech, start, end, 4, 0)
    return not TURNING & set(speech.texts[low:start]) or speech.texts[end : end + 1] in (("of",), ("side",), ("hand",))


def _otherwise(evidence: Evidence, words: Cues, start: int, end: int, clockwise: bool) -> bool:
    """Said from another side, of no thread, of somebody who got it wrong, denied, or taken back."""
    speech = evidence.reading.speech
    low, high = clause(speech, start, end, AROUND, AROUND)
    if words.has("viewpoint", max(0, start - 2 * AROUND), high) or words.has("finding", low, high):
        return True
    if _no_thread(evidence, words, max(low, start - 8), min(high, end + 3)) or words.has(
        "others", max(low, start - 9), start
    ):
        return True
    if words.has("negation", max(low, start - 3), start) or words.has("correction", end, min(high, end + CORRECTED)):
        return True
    opposite = "anticlockwise" if clockwise else "clockwise"
    near = [
        span
        for span in words.between(opposite, max(0, start - CORRECTED), end + CORRECTED)
        if not start <= span[0] < end
    ]
    return bool(near) and speech.texts[start] not in ("lefty", "righty")


def _no_thread(evidence: Evidence, words: Cues, low: int, high: int) -> bool:
    """Whether something else is turned: a shaft, a knob. A "shaft nut" and a "cover bolt" are fasteners."""
    named = {i for s in evidence.reading.sightings if s.kind == "fastener" for i in range(s.start, s.end)}
    texts = evidence.reading.speech.texts
    return any(
        start not in named and texts[end : end + 1] not in _HEADS for start, end in words.between("turned", low, high)
    )


def _action(evidence: Evidence, words: Cues, start: int, end: int) -> bool | None:
    """Whether the turn tightens, by the nearest action; None where there is none, or one of each is as near."""
    speech = evidence.reading.speech
    low, high = clause(speech, start, end, BEFORE, AFTER)
    # The other direction's action is its own.
    for group in ("clockwise", "anticlockwise"):
        for first, last in words.between(group, low, high):
            low = max(low, last) if last <= start else low
            high = min(high, first) if first >= end else high
    distances: dict[bool, int] = {}
    for group, tightens in (("tightens", True), ("loosens", False)):
        for first, last in words.between(group, low, high):
            gap = first - end if first >= end else start - last
            if gap >= 0:
                distances[tightens] = min(gap, distances.get(tightens, gap))
    if _to_a_torque(evidence, end):
        distances[True] = min(1, distances.get(True, 1))
    if not distances:
        return None
    tightens = min(distances, key=lambda each: distances[each])
    return tightens if len(distances) == 1 or distances[not tightens] - distances[tightens] >= 3 else None


def _to_a_torque(evidence: Evidence, end: int) -> bool:
    """ "clockwise to forty five newton metres"."""
    texts = evidence.reading.speech.texts
    return any(
        m.kind == "torque" and m.first <= end + 5 and "to" in texts[end : m.first]
        for m in evidence.mentions
        if m.first >= end
    )


def _finding(speech: Speech, turn: Turn, hand: Hand) -> Finding:
    said = speech.said(turn.start, turn.end)
    begin, finish = speech.span_times(turn.start, turn.end)
    right = "anticlockwise" if turn.clockwise else "clockwise"
    verb = "tightens" if turn.tightens else "loosens"
    message = f'"{said}" was said of {hand.named}: {_why(hand)}, so it {verb} {right}.'
    shown = card(f"Correction: {hand.named} {verb} {right}", begin)
    sure = hand.known in ("said", "table")
    fix = Fix(
        right if " " not in said else None,
        shown.card,
        shown.card_in,
        shown.card_out,
        None if sure else "Which hand is this thread?",
    )
    return Finding(
        NAME,
        "hold" if sure else "query",
        begin,
        finish,
        said,
        message,
        right,
        hand.named,
        "the direction of the other hand's thread was said",
        fix,
    )


def _why(hand: Hand) -> str:
    side = "left-hand" if hand.left else "right-hand"
    return {
        "said": f'"{hand.place}" were your own words',
        "table": f"{hand.place} gives its thread as {side}",
        "joint": f"that joint has a {side} thread ({hand.place})",
        "may be either": "",
        "usual": "nothing says that its thread is left-hand",
    }[hand.known]
