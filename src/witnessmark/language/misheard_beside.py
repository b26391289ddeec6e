"""Garbles beside a word that is right, which names its fellow: break pads -> brake pads."""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from witnessmark.language.misheard_lexicon import EXPECTED, OWN, TRADE, same_word, singular, stem
from witnessmark.language.misheard_model import Candidate, Misheard
from witnessmark.language.misheard_text import LONGEST, Text, rarity, reading
from witnessmark.language.sounds import nearest

_OWN_BESIDE: Final = 0.15
_TRADE_BESIDE: Final = 0.12
"""What a place beside a right word is allowed before anything speaks for or against it."""
_WELL_KNOWN: Final = 0.04
"""What is added where one word stands for one, and the two make a name that others are built on (torque wrench)."""
_MOST_OBSCURE: Final = 0.14
"""The most where the two stand side by side in one name of the trade at large only (tongue jack)."""
_MOST_PLAIN: Final = 0.06
"""The same for an ordinary word of everyday life (the guys)."""
_MOST_OF_NAME: Final = 0.1
"""The most where the one word that is doubted names a thing of the trade by itself."""
_MOST_OF_GRAMMAR: Final = 0.12
"""The most where it is a verb or a function word."""
_MOST: Final = 0.18
_MOST_OWN: Final = 0.22
"""The most anywhere; what is farther apart does not sound near."""
_MOST_BEHIND: Final = 0.12
"""The greatest allowance for what stands behind a right word and would make it a name of the trade at large."""
_MOST_BEHIND_NAMED: Final = 0.15
"""The same where the two are well known and an article before them makes them a name (the hose clap)."""

_PARTICLES: Final = frozenset(["out", "off", "up", "down", "back", "in", "apart", "away"])


class _Beside(NamedTuple):
    """A run of words next to a right word (anchor), and the word that it sounds like.

    step: 1 behind the anchor, -1 before it. meant: the word as it would have been said; fellow: as the name beside
    the anchor has it.
    """

    anchor: int
    step: int
    start: int
    end: int
    meant: str
    fellow: str
    weight: float


def beside(text: Text) -> Iterator[Candidate]:
    """Garbles next to a word that is right: each word of the text against what stands next to it in some name."""
    for anchor, word in enumerate(text.words):
        key = singular(word)
        for step in (1, -1):
            fellows = text.lexicon.fellows(key, step)
            if fellows is None:
                continue
            for length in range(1, LONGEST + 1):
                start = anchor + 1 if step > 0 else anchor - length
                if not text.plain(start if step < 0 else start + length - 1):
                    break
                if text.open_run(start, start + length) or (length == 1 and text.doubtful(start)):
                    sounds = reading(text.words[start : start + length])
                    for meant, fellow, weight in fellows.near(sounds, 1):
                        yield from _judge_beside(
                            text, _Beside(anchor, step, start, start + length, meant, fellow, weight)
                        )


def _judge_beside(text: Text, place: _Beside) -> Iterator[Candidate]:
    heard = text.words[place.start : place.end]
    if any(same_word(word, place.meant) for word in heard) or (place.weight < OWN and "".join(heard) == place.meant):
        return
    if place.step > 0 and place.weight < OWN and text.words[place.anchor] in text.lists.units:
        return  # what follows a measure is told by the measure, not by a name: an inch pound is
    most = _allowed_beside(text, place, _BEST)
    if most <= 0 or _cost_beside(text, place, most) > most:
        return
    stretch = _stretch(text, place)
    allowance = _allowed_beside(text, place, stretch)
    if allowance <= 0:
        return
    apart = _cost_beside(text, place, allowance)
    if apart <= allowance and not _inflected(heard, place):
        yield _widened(text, place, stretch, apart, allowance)


class _Stretch(NamedTuple):
    """The longest stretch of a name that stands in the text once a garble is read as meant.

    start, end: tokens, end exclusive. own: the name is of the recording's own table. longer: the stretch is of three
    words or more; whole: and nothing of the name is wanting. names: how many names the two words stand in.
    """

    start: int
    end: int
    kind: str
    own: bool
    longer: bool
    whole: bool
    names: int


_BEST: Final = _Stretch(0, 0, "", own=True, longer=True, whole=True, names=9)
"""What no stretch is allowed more than: most places need no other look."""


def _stretch(text: Text, place: _Beside) -> _Stretch:
    origin, close = min(place.anchor, place.start), max(place.anchor + 1, place.end)
    anchor, fellow = singular(text.words[place.anchor]), singular(place.fellow)
    pair = (anchor, fellow) if place.step > 0 else (fellow, anchor)
    places = text.lexicon.places(*pair)
    reached = [(*_reach(text, words, at, origin, close), len(words), term) for words, at, term in places]
    back, ahead, length, term = max(reached, key=lambda reach: reach[0] + reach[1])
    own = any(term.weight >= OWN for _, _, term in places)
    longer = back + ahead > 0
    whole = longer and back + ahead + 2 == length
    return _Stretch(origin - back, close + ahead, term.kind, own, longer, whole, len(places))


def _core(text: Text, place: _Beside) -> tuple[str, str]:
    anchor = text.words[place.anchor]
    return (anchor, place.meant) if place.step > 0 else (place.meant, anchor)


def _inflected(heard: Sequence[str], place: _Beside) -> bool:
    """Whether one word is the other with an ending (drained, drain).

    It is a mistake only where it leads a name of the recording's own table.
    """
    if len(heard) != 1 or stem(heard[0]) != stem(place.meant):
        return False
    return not (place.step < 0 and place.weight >= OWN and heard[0].endswith("ed"))


def _cost_beside(text: Text, place: _Beside, limit: float) -> float:
    """Distance a phoneme; the sounds where two words meet may belong to either of them (gear royal, gear oil)."""
    heard, meant = text.words[place.start : place.end], (place.meant,)
    apart = nearest(reading(heard), reading(meant), limit)
    word = text.words[place.anchor]
    if apart <= limit or not reading((word,)):
        return apart
    pair = ((word, *heard), (word, *meant)) if place.step > 0 else ((*heard, word), (*meant, word))
    longer, fellow = len(reading(pair[0])[0]), max(len(reading(heard)[0]), len(reading(meant)[0]))
    return min(apart, nearest(reading(pair[0]), reading(pair[1]), limit * fellow / longer) * longer / fellow)


def _allowed_beside(text: Text, place: _Beside, stretch: _Stretch) -> float:
    heard = text.words[place.start : place.end]
    expected = place.weight >= OWN or text.expects(place.meant)
    allowance = (_OWN_BESIDE if expected else _TRADE_BESIDE) + 0.06 * max(place.weight, EXPECTED * expected)
    allowance += (
        _for_fame(text, place, stretch) + 0.06 * stretch.longer + 0.04 * stretch.whole + 0.06 * text.broken(place.start)
    )
    allowance -= _doubt_of_one(text, place, stretch.longer) if len(heard) == 1 else _doubt_of_several(text, place)
    return min(allowance, _most_beside(text, place, stretch, expected))


def _most_beside(text: Text, place: _Beside, stretch: _Stretch, expected: bool) -> float:
    """The most that the place may be allowed, whatever speaks for it."""
    heard, lists = text.words[place.start : place.end], text.lists
    most = [_MOST_OWN if expected else _MOST]
    if place.step > 0 and not expected:
        # behind a noun stands a verb as well as another noun
        named = stretch.names > 2 and text.at(place.anchor - 1) in text.lists.determiners
        most.append(_MOST_BEHIND_NAMED if named else _MOST_BEHIND)
    if _is_obscure(stretch) and not expected:
        most.append(_MOST_PLAIN if text.lists.plain_nouns.issuperset(heard) else _MOST_OBSCURE)
    if len(heard) == 1 and text.lexicon.weights.get(heard[0], 0.0) >= TRADE:
        most.append(_MOST_OF_NAME)
    grammar = len(heard) == 1 and (heard[0] in lists.verbs or heard[0] in lists.function_words)
    if grammar and not text.broken(place.start):
        most.append(_MOST_OF_GRAMMAR)
    return min(most)


def _is_obscure(stretch: _Stretch) -> bool:
    return stretch.names < 2 and not stretch.own and not stretch.longer


def _for_fame(text: Text, place: _Beside, stretch: _Stretch) -> float:
    """What the rarity of the heard words adds, and how well known the name is: beside 'wrench' even 'torch' is wrong."""
    heard = text.words[place.start : place.end]
    common = rarity(heard)
    if len(heard) > 1 or _is_obscure(stretch):
        return common
    if place.step > 0 and not stretch.own and heard[0].endswith("s"):
        return common  # as likely a verb: the brake bites
    return max(common, common / 2) + _WELL_KNOWN


def _doubt_of_one(text: Text, place: _Beside, longer: bool) -> float:
    """What is taken off the allowance for a single word that has a right to stand beside the anchor."""
    word, lists = text.words[place.start], text.lists
    if word in lists.modifiers and place.step < 0:
        return 0.04 if longer and place.weight >= OWN else 0.25
    if word in lists.function_words:
        return 0.02 if text.broken(place.start) else _doubt_of_function_word(text, place)
    if text.at_home(place.start, place.end):
        return 0.08 if place.weight >= OWN else 0.15
    off = (0.04 if text.expects(place.meant) else 0.06) if word in text.lexicon.weights else 0.0
    if place.step > 0 and word.endswith("ed") and stem(word) in lists.verbs and text.at(place.end) in _PARTICLES:
        return off + 0.25  # "with the racks pulled out": no bolt of the racks
    return off + 0.08 if place.step > 0 and word in lists.verbs else off


def _doubt_of_function_word(text: Text, place: _Beside) -> float:
    """What is taken off for a function word.

    It seldom stands for the next word of a name: where the name goes on behind it, or where grammar has no use for it.
    """
    following = text.at(place.end)
    if (
        place.step > 0
        and text.lexicon.places(singular(place.meant), singular(following))
        and following not in text.lists.function_words
    ):
        return 0.1
    odd = place.step > 0 and place.weight >= OWN and text.words[place.start] in text.lists.seldom_after_nouns
    return 0.03 if odd and following not in text.lists.determiners and following not in text.lexicon.weights else 0.3


def _doubt_of_several(text: Text, place: _Beside) -> float:
    """What is taken off where several words would stand for one."""
    off = 0.03 * (place.end - place.start - 1)
    if place.step > 0 and text.words[place.start] in text.lists.tensed:
        off += 0.1  # a noun and its verb
    # a verb and an article before a noun are good English, unless an article stands before them too
    last, anchor = text.words[place.end - 1], text.words[place.anchor]
    two_many = last in ("a", "an") and place.step < 0 and singular(anchor) != anchor  # feel a gauges
    if last in text.lists.determiners and text.at(place.start - 1) not in text.lists.determiners and not two_many:
        off += 0.1
    return off


def _widened(text: Text, place: _Beside, stretch: _Stretch, apart: float, allowance: float) -> Candidate:
    origin, close = min(place.anchor, place.start), max(place.anchor + 1, place.end)
    core = _core(text, place)
    whole = text.words[stretch.start : stretch.end]
    meant = " ".join((*text.words[stretch.start : origin], *core, *text.words[close : stretch.end]))
    known = "of the recording's own table" if stretch.own else "a name of the trade"
    heard = " ".join(text.words[place.start : place.end])
    why = f'"{heard}" sounds like "{place.meant}", and "{" ".join(core)}" is {known}.'
    found = Misheard(stretch.start, stretch.end, " ".join(whole), meant, stretch.kind, round(apart, 3), why)
    fame = _for_fame(text, place, stretch) - rarity(text.words[place.start : place.end])
    margin = allowance - apart + 0.1 + 0.05 * place.weight - fame + 0.01 * (len(whole) - (close - origin))
    return Candidate(found, margin)


def _reach(text: Text, words: tuple[str, ...], at: int, origin: int, close: int) -> tuple[int, int]:
    """How many further words of a term, beyond those at `at` and next, stand in the text before origin and from close on."""
    back = ahead = 0
    while at - back > 0 and same_word(text.at(origin - back - 1), words[at - back - 1]):
        back += 1
    while at + 2 + ahead < len(words) and same_word(text.at(close + ahead), words[at + 2 + ahead]):
        ahead += 1
    return back, ahead
