"""Words that the captions got wrong: what they show sounds like a word of the trade, and the trade's word fits the neighbours better.

Three kinds are told apart. *Beside*: the neighbour is right and names its fellow (break pads -> brake pads). *Split*: several words stand for one,
or one for two (in pillar -> impeller). *Single*: one real word for another (petals -> pedals); these need the most proof. Each candidate has a cost,
how far apart the two sound for each phoneme, and an allowance, how far they may be apart in that place; what costs no more than its allowance is found.
The allowances were set on annotated recordings and invented sentences: common practice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from rapidfuzz.distance import Levenshtein
from rapidfuzz.process import extract

from witnessmark.language.misheard_lexicon import EXPECTED, OWN, Form, Term, lexicon_of, same_word, singular, stem
from witnessmark.language.misheard_text import Text, cost, most_edits, rarity, reading
from witnessmark.language.sounds import UNLISTED, commonness, nearest

__all__ = ["Misheard", "Term", "find_misheard"]

_LONGEST: Final = 4
"""The most words that one garble may spread over."""
_MOST_BEHIND: Final = 0.12
"""The greatest allowance for what stands behind a right word and would make it a name of the trade at large."""
_MOST_OF_TRADE: Final = 0.08
"""A single word of the trade at large that nothing in the recording asks for must sound this near."""
_MOST_ALONE: Final = 0.2
"""No allowance away from a right word is greater than this."""


@dataclass(frozen=True, slots=True)
class Misheard:
    """One doubtful place. start, end: tokens, end exclusive. heard: what the captions show there. meant: the trade's words. cost: distance a phoneme."""

    start: int
    end: int
    heard: str
    meant: str
    kind: str
    cost: float
    why: str


@dataclass(frozen=True, slots=True)
class _Candidate:
    found: Misheard
    margin: float


# ---- beside a right word ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Beside:
    """A run of words next to a right word (anchor), and the word that it sounds like.

    step: 1 behind the anchor, -1 before it. meant: the word as it would have been said; fellow: as the name beside the anchor has it.
    """

    anchor: int
    step: int
    start: int
    end: int
    meant: str
    fellow: str
    weight: float


def _beside(text: Text) -> Iterator[_Candidate]:
    """Garbles next to a word that is right: every word of the text against the words that stand next to it in some name."""
    for anchor, word in enumerate(text.words):
        key = singular(word)
        for step, table in ((1, text.lexicon.after), (-1, text.lexicon.before)):
            if key not in table:
                continue
            fellows = text.lexicon.fellows(key, step)
            for length in range(1, _LONGEST):
                start = anchor + 1 if step > 0 else anchor - length
                if not text.plain(start if step < 0 else start + length - 1):
                    break
                if text.open_run(start, start + length) or (length == 1 and text.doubtful(start)):
                    sounds = reading(text.words[start : start + length])
                    for meant, fellow, weight in fellows.near(sounds, 3):
                        yield from _judge_beside(text, _Beside(anchor, step, start, start + length, meant, fellow, weight))


def _judge_beside(text: Text, place: _Beside) -> Iterator[_Candidate]:
    heard = text.words[place.start : place.end]
    if any(same_word(word, place.meant) for word in heard) or (place.weight < OWN and "".join(heard) == place.meant):
        return
    stretch = _stretch(text, place)
    allowance = _allowed_beside(text, place, stretch)
    if allowance <= 0:
        return
    apart = _cost_beside(text, place, allowance)
    if apart <= allowance and not _inflected(heard, place):
        yield _widened(text, place, stretch, apart, allowance)


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The longest stretch of a name that stands in the text once a garble is read as meant. start, end: tokens, end exclusive."""

    start: int
    end: int
    kind: str
    own: bool
    longer: bool


def _stretch(text: Text, place: _Beside) -> _Stretch:
    origin, close = min(place.anchor, place.start), max(place.anchor + 1, place.end)
    anchor, fellow = singular(text.words[place.anchor]), singular(place.fellow)
    pair = (anchor, fellow) if place.step > 0 else (fellow, anchor)
    terms = text.lexicon.containing[pair]
    back, ahead = max((_reach(text, term, pair, origin, close) for term in terms), key=sum)
    own = any(term.weight >= OWN for term in terms)
    return _Stretch(origin - back, close + ahead, terms[0].kind, own, back + ahead > 0)


def _core(text: Text, place: _Beside) -> tuple[str, str]:
    anchor = text.words[place.anchor]
    return (anchor, place.meant) if place.step > 0 else (place.meant, anchor)


def _inflected(heard: Sequence[str], place: _Beside) -> bool:
    """Whether one word is the other with an ending (drained, drain): a mistake only where it leads a name of the recording's own table."""
    if len(heard) != 1 or stem(heard[0]) != stem(place.meant):
        return False
    return not (place.step < 0 and place.weight >= OWN and heard[0].endswith("ed"))


def _cost_beside(text: Text, place: _Beside, limit: float) -> float:
    """Distance a phoneme; the sounds where two words meet may belong to either of them (gear royal, gear oil)."""
    heard, meant = text.words[place.start : place.end], (place.meant,)
    apart = cost(reading(heard), reading(meant), limit)
    if apart <= limit:
        return apart
    word = text.words[place.anchor]
    pair = ((word, *heard), (word, *meant)) if place.step > 0 else ((*heard, word), (*meant, word))
    longer, fellow = len(reading(pair[0])[0]), max(len(reading(heard)[0]), len(reading(meant)[0]))
    return min(apart, cost(reading(pair[0]), reading(pair[1]), limit) * longer / fellow)


def _allowed_beside(text: Text, place: _Beside, stretch: _Stretch) -> float:
    heard = text.words[place.start : place.end]
    allowance = (0.15 if place.weight >= OWN else 0.12) + 0.06 * place.weight + rarity(heard)
    allowance += 0.05 * stretch.longer + 0.05 * text.broken(place.start)
    allowance -= _doubt_of_one(text, place, stretch.longer) if len(heard) == 1 else _doubt_of_several(text, place)
    # behind a noun stands a verb as well as another noun
    return min(allowance, _MOST_BEHIND) if place.step > 0 and place.weight < OWN else allowance


def _doubt_of_one(text: Text, place: _Beside, longer: bool) -> float:
    """What is taken off the allowance for a single word that has a right to stand beside the anchor."""
    word, lists = text.words[place.start], text.lists
    if word in lists.modifiers and place.step < 0:
        return 0.04 if longer else 0.25
    if word in lists.function_words:
        return 0.02 if text.broken(place.start) else _doubt_of_function_word(text, place)
    if text.at_home(place.start, place.end):
        return 0.08 if place.weight >= OWN else 0.15
    off = 0.05 if word in text.lexicon.weights else 0.0
    return off + 0.08 if place.step > 0 and word in lists.verbs else off


def _doubt_of_function_word(text: Text, place: _Beside) -> float:
    """A function word behind a right word seldom stands for the name's next word: where the name goes on behind it, or where grammar has no use for it."""
    following = text.at(place.end)
    if place.step > 0 and text.lexicon.goes_on(place.meant, following) and following not in text.lists.function_words:
        return 0.1
    odd = place.step > 0 and place.weight >= OWN and text.words[place.start] in text.lists.seldom_after_nouns
    return 0.03 if odd and following not in text.lists.determiners and following not in text.lexicon.weights else 0.3


def _doubt_of_several(text: Text, place: _Beside) -> float:
    """What is taken off where several words would stand for one."""
    off = 0.03 * (place.end - place.start - 1)
    # a verb and an article before a noun are good English, unless an article stands before them too
    if text.words[place.end - 1] in text.lists.determiners and text.at(place.start - 1) not in text.lists.determiners:
        off += 0.1
    return off


def _widened(text: Text, place: _Beside, stretch: _Stretch, apart: float, allowance: float) -> _Candidate:
    origin, close = min(place.anchor, place.start), max(place.anchor + 1, place.end)
    core = _core(text, place)
    whole = text.words[stretch.start : stretch.end]
    meant = " ".join((*text.words[stretch.start : origin], *core, *text.words[close : stretch.end]))
    known = "of the recording's own table" if stretch.own else "a name of the trade"
    heard = " ".join(text.words[place.start : place.end])
    why = f'"{heard}" sounds like "{place.meant}", and "{" ".join(core)}" is {known}.'
    found = Misheard(stretch.start, stretch.end, " ".join(whole), meant, stretch.kind, round(apart, 3), why)
    margin = allowance - apart + 0.1 + 0.05 * place.weight + 0.01 * (len(whole) - (close - origin))
    return _Candidate(found, margin)


def _reach(text: Text, term: Term, pair: tuple[str, str], origin: int, close: int) -> tuple[int, int]:
    """How many further words of the term stand in the text before origin and from close on."""
    words = term.name.split()
    at = next(i for i in range(len(words) - 1) if (singular(words[i]), singular(words[i + 1])) == pair)
    back = ahead = 0
    while at - back > 0 and same_word(text.at(origin - back - 1), words[at - back - 1]):
        back += 1
    while at + 2 + ahead < len(words) and same_word(text.at(close + ahead), words[at + 2 + ahead]):
        ahead += 1
    return back, ahead


# ---- split and single words -------------------------------------------------------------------------------------------------------


def _alone(text: Text) -> Iterator[_Candidate]:
    """Garbles with no right word beside them: every run of words against the names that share its consonants."""
    for start in range(len(text.words)):
        for length in range(1, _LONGEST + 1):
            end = start + length
            if not text.plain(end - 1):
                break
            if not text.open_run(start, end) or (length == 1 and not _may_be_wrong(text, start)):
                continue
            sounds = reading(text.words[start:end])
            judge, most = (_allowed_single, _most_of_one(text, start)) if length == 1 else (_allowed_split, _most_of_several(text, start, end))
            near = {form: form.sounds[0] for form in text.lexicon.index.near(sounds, 4)}
            edits = most_edits(len(sounds[0]))
            for _, _, form in extract(sounds[0], near, scorer=Levenshtein.distance, score_cutoff=edits, limit=None):
                apart = nearest(sounds, form.sounds, most)
                if apart <= most and apart <= (allowance := judge(text, start, end, form)):
                    yield _candidate(text, start, end, form, apart, allowance)


def _most_of_one(text: Text, start: int) -> float:
    """The greatest allowance that _allowed_single can give a word."""
    return min(_MOST_ALONE, 0.18 + rarity(text.words[start : start + 1]) + 0.05 * text.broken(start))


def _most_of_several(text: Text, start: int, end: int) -> float:
    """The greatest allowance that _allowed_split can give a run of words."""
    return min(_MOST_ALONE, 0.18 + rarity(text.words[start:end]) + 0.05 * text.broken(start))


def _candidate(text: Text, start: int, end: int, form: Form, apart: float, allowance: float) -> _Candidate:
    heard = " ".join(text.words[start:end])
    near, _ = text.company(start, end, form.words)
    if form.weight >= EXPECTED:
        reason = "a word of the recording's own table"
    elif all(singular(word) in text.said for word in form.words):
        reason = "which is said elsewhere in the recording"
    else:
        reason = f'a word of the trade that goes with "{near}"' if near else "a word of the trade"
    found = Misheard(start, end, heard, form.name, form.kind, round(apart, 3), f'"{heard}" sounds like "{form.name}", {reason}.')
    return _Candidate(found, allowance - apart + 0.02 * (end - start) + 0.05 * form.weight + 0.1 * (len(form.words) > 1))


def _may_be_wrong(text: Text, start: int) -> bool:
    word, lists = text.words[start], text.lists
    if word in lists.function_words or word in lists.modifiers or text.verb_stands(start, start + 1) or text.at_home(start, start + 1):
        return False
    return commonness(word) > 1 or (text.noun_stands(start) and word not in lists.verbs)


def _allowed_single(text: Text, start: int, end: int, form: Form) -> float:
    if len(form.words) > 1:
        return _allowed_split(text, start, end, form)
    heard, meant = text.words[start], form.words[0]
    if same_word(heard, meant) or stem(heard) == stem(meant):
        return -1.0
    _, company = text.company(start, start + 1, form.words)
    said = singular(meant) in text.said
    if form.weight < EXPECTED and not said and company < (0.4 if commonness(heard) > 3 else 0.6):
        return -1.0
    allowance = 0.04 + 0.05 * form.weight + 0.05 * company + rarity((heard,))
    if heard in text.lexicon.weights:
        allowance -= 0.04 if form.weight >= EXPECTED else 0.5
    allowance += 0.02 * said + 0.02 * text.noun_stands(start)
    return allowance if form.weight >= EXPECTED or said or company == 1.0 else min(allowance, _MOST_OF_TRADE)


def _allowed_split(text: Text, start: int, end: int, form: Form) -> float:
    heard, lists = text.words[start:end], text.lists
    if form.weight < EXPECTED and "".join(heard) == "".join(form.words):
        return -1.0
    if any(same_word(word, part) or (len(heard) == 1 and stem(word) == stem(part)) for word in heard for part in form.words):
        return -1.0
    if len(heard) == 1 and commonness(heard[0]) < UNLISTED:
        return -1.0
    broken = text.broken(start)
    if text.at(start - 1) in lists.verb_signs and commonness(heard[0]) <= 2:
        return -1.0
    _, company = text.company(start, end, form.words)
    allowance = 0.06 + 0.05 * form.weight + 0.03 * company + rarity(heard) + 0.05 * broken
    if len(form.sounds[0]) < 5:
        allowance -= 0.06
    if heard[-1] in lists.seldom_after_nouns and text.at(start - 1) in lists.determiners:
        allowance += 0.04
    elif heard[-1] in lists.function_words or (heard[0] in lists.function_words and not broken):
        allowance -= 0.04
    if form.weight < EXPECTED and not broken and all(word in text.lexicon.weights or word in lists.function_words for word in heard):
        allowance -= 0.05
    return allowance


# ---- the finder -------------------------------------------------------------------------------------------------------------------


def find_misheard(words: Sequence[str], terms: Sequence[Term]) -> tuple[Misheard, ...]:
    """The places where the captions' words stand for a trade's words that they sound like, in order; no two overlap.

    words: the captions' tokens, lower case, hyphens already spaces, contractions split (that, 's); punctuation may stand among them.
    terms: every name that may be said; a name may come more than once, and the greatest weight counts.
    """
    text = Text(words, lexicon_of(tuple(terms)))
    candidates = sorted((*_beside(text), *_alone(text)), key=lambda c: (-c.margin, c.found.start, c.found.end, c.found.meant))
    taken: set[int] = set()
    chosen = []
    for candidate in candidates:
        places = range(candidate.found.start, candidate.found.end)
        if taken.isdisjoint(places):
            taken.update(places)
            chosen.append(candidate.found)
    return tuple(sorted(chosen, key=lambda found: found.start))
