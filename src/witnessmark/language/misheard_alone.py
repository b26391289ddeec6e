"""Garbles with no right word beside them: in pillar -> impeller (split), petals -> pedals (single)."""

from collections.abc import Iterator
from typing import Final

from rapidfuzz.distance import Levenshtein
from rapidfuzz.process import extract

from witnessmark.language.misheard_lexicon import EXPECTED, TRADE, Form, same_word, singular, stem, with_its_g
from witnessmark.language.misheard_model import Candidate, Misheard
from witnessmark.language.misheard_text import LONGEST, Text, rarity, reading
from witnessmark.language.sounds import NAME, UNLISTED, commonness, most_edits, nearest

_SINGLE: Final = 0.04
"""What a single word is allowed before anything speaks for or against it."""
_SPLIT: Final = 0.06
"""What several words for one, or one for several, are allowed before anything speaks for or against them."""
_LONG: Final = 6
"""From so many phonemes on, chance seldom makes a run of words sound like a name."""
_LEAST_OF_OWN: Final = 0.035
"""What a long word of the recording's own table is allowed in place of several, however common they are."""
_FOR_MORE: Final = 0.06
"""By how much a long word in the place of a noun may go past what it is allowed."""
_MOST_FOR_MORE: Final = 0.11
"""The most that it may be apart all the same."""
_FOR_WEIGHT: Final = 0.05
"""What the weight of a form adds."""
_MOST_FOR_FORM: Final = 0.14
"""The most that a form itself can add to either: its weight, its company, its having been said."""
_MOST_FOR_RUN: Final = 0.08
"""The same for several words that do not stand where a noun is wanted."""
_MOST_OF_TRADE: Final = 0.045
"""A single word of the trade at large that nothing in the recording asks for must sound this near."""
_MOST_OF_SAID: Final = 0.09
"""The same for one that is only said elsewhere in the recording."""

_MOST_OF_KNOWN: Final = 0.09
"""How far apart a word that everybody knows ("venison") may be from a single word that it stands for."""


def alone(text: Text) -> Iterator[Candidate]:
    """Every run of words against the names that share its consonants, whatever stands beside it."""
    for start in range(len(text.words)):
        for length in range(1, LONGEST + 1):
            end = start + length
            if not text.plain(end - 1):
                break
            if not text.open_run(start, end) or (length == 1 and not _may_be_wrong(text, start)):
                continue
            allowed = _allowed_word(text, start) if length == 1 else _allowed_run(text, start, end)
            more = _MOST_FOR_FORM if length == 1 or _noun_wanted(text, start, end) else _MOST_FOR_RUN
            if allowed + more > 0:
                yield from _judge(text, start, end, allowed, allowed + more)


def _judge(text: Text, start: int, end: int, allowed: float, most: float) -> Iterator[Candidate]:
    """What the run may stand for. allowed: what the place allows; most: what it may allow the heaviest form at best."""
    heard = text.words[start:end]
    sounds = reading(heard)
    near = text.lexicon.index.near(sounds, 4)
    edits = most_edits(len(sounds[0]), most)
    for said in sorted(
        said for said, _, _ in extract(sounds[0], near, scorer=Levenshtein.distance, score_cutoff=edits, limit=None)
    ):
        for form in text.lexicon.forms[said]:
            limit = most - _FOR_WEIGHT * (1 - form.weight)
            apart = nearest(sounds, form.sounds, limit)
            if apart > limit or _is_itself(heard, form):
                continue
            one = len(heard) == 1 and len(form.words) == 1
            if one and apart > _MOST_OF_KNOWN and commonness(heard[0]) < NAME:
                continue
            allowance = _for_single(text, start, form, allowed) if one else _for_split(text, start, end, form, allowed)
            if apart <= allowance:
                yield _candidate(text, start, end, form, apart, allowance)
            elif apart <= _MOST_FOR_MORE and _one_noun_for_more(text, start, end, form, apart - allowance):
                yield _candidate(text, start, end, form, apart, apart)


def _is_itself(heard: tuple[str, ...], form: Form) -> bool:
    """Whether the captions show the form already, or a part of it, but for number, spelling or an ending."""
    if form.weight < EXPECTED and "".join(heard) == "".join(form.words):
        return True
    joined = "".join(form.words)
    if len(form.words) > 1 and any(same_word(word, joined) for word in heard):
        return True  # "airbox is" is no air boxes
    single = len(heard) == 1
    return any(same_word(word, part) or (single and stem(word) == stem(part)) for word in heard for part in form.words)


def _candidate(text: Text, start: int, end: int, form: Form, apart: float, allowance: float) -> Candidate:
    heard = " ".join(text.words[start:end])
    near, _ = text.company(start, end, form.words)
    if form.weight >= EXPECTED:
        reason = "a word of the recording's own table"
    elif all(singular(word) in text.said for word in form.words):
        reason = "which is said elsewhere in the recording"
    else:
        reason = f'a word of the trade that goes with "{near}"' if near else "a word of the trade"
    why = f'"{heard}" sounds like "{form.name}", {reason}.'
    found = Misheard(start, end, heard, form.name, form.kind, round(apart, 3), why)
    # what explains more of the text goes before what explains less
    margin = allowance - apart + 0.02 * (end - start) + 0.05 * form.weight + 0.1 * (len(form.words) > 1)
    return Candidate(found, margin)


# ---- one word for one -------------------------------------------------------------------------------------------


def _may_be_wrong(text: Text, start: int) -> bool:
    word, lists = text.words[start], text.lists
    if word in lists.function_words or not lists.modifiers.isdisjoint((word, singular(word))):
        return False
    if word in lists.plain_nouns or _participle(word):
        return False
    if text.verb_stands(start, start + 1) or text.at_home(start, start + 1):
        return False
    return commonness(word) > 1 or (text.noun_stands(start) and word not in lists.verbs)


def _participle(word: str) -> bool:
    """Whether it is a known word with -ed (gapped), which no noun is heard as."""
    return word.endswith("ed") and min(commonness(whole) for whole in (stem(word), stem(word) + "e")) < NAME


def _allowed_word(text: Text, start: int) -> float:
    """What the place allows for a single word, whatever is meant."""
    heard = text.words[start]
    return _SINGLE + rarity((heard,)) + 0.02 * text.noun_stands(start) - 0.04 * (heard in text.lexicon.weights)


def _for_single(text: Text, start: int, form: Form, allowed: float) -> float:
    """What form is allowed in place of a single word; less than nothing where it is out of the question."""
    heard, meant = text.words[start], form.words[0]
    of_trade, named = heard in text.lexicon.weights, text.lexicon.weights.get(heard, 0.0) >= TRADE
    _, company = text.company(start, start + 1, form.words)
    if of_trade and (form.weight < EXPECTED or (named and company < 1.0)):
        return -1.0
    said = singular(meant) in text.said
    if form.weight < EXPECTED and not said and company < (0.4 if commonness(heard) > 3 else 0.6):
        # nothing asks for the word but a rare one in a noun's place
        rare = 3 <= commonness(heard) < NAME and text.at(start - 1) in text.lists.articles
        return _MOST_OF_TRADE if rare and form.weight >= TRADE else -1.0
    allowance = allowed + _FOR_WEIGHT * form.weight + 0.05 * company + 0.02 * said
    if form.weight >= EXPECTED or company == 1.0:
        return allowance
    return min(allowance, _MOST_OF_SAID if said else _MOST_OF_TRADE)


# ---- several words for one, or one for several --------------------------------------------------------------------


def _allowed_run(text: Text, start: int, end: int) -> float:
    """What the place allows for a run of words, whatever is meant."""
    heard, lists = text.words[start:end], text.lists
    if text.at(start - 1) in lists.verb_signs and commonness(heard[0]) <= 2:
        return -1.0
    if any(with_its_g(word) != word for word in heard):
        return -1.0
    broken = text.broken(start)
    allowed = _SPLIT + rarity(heard) + 0.05 * broken
    if heard[-1] in lists.seldom_after_nouns and text.at(start - 1) in lists.determiners:
        return allowed + 0.04
    if heard[-1] in lists.function_words or (heard[0] in lists.function_words and not broken):
        return allowed - 0.04
    return allowed


def _one_noun_for_more(text: Text, start: int, end: int, form: Form, past: float) -> bool:
    """Whether a long word stands where a noun is wanted and nothing but nouns is heard: a new gas kit.

    past: by how much it goes past what it is allowed.
    """
    if past > _FOR_MORE or end - start < 2 or len(form.words) > 1 or len(form.sounds[0]) < _LONG:
        return False
    return stem(text.words[start]) != stem(form.words[0]) and _noun_wanted(text, start, end)


def _noun_wanted(text: Text, start: int, end: int) -> bool:
    before, lists = text.at(start - 1), text.lists
    if text.words[end - 1] in lists.function_words:
        return False
    return before == "of" or (before in lists.determiners and text.words[start] not in lists.modifiers)


def _for_split(text: Text, start: int, end: int, form: Form, allowed: float) -> float:
    """What form is allowed in place of a run of words; less than nothing where it is out of the question."""
    heard, lists = text.words[start:end], text.lists
    if heard[-1] in lists.verbs and form.weight < EXPECTED:
        return -1.0  # a noun and what it does: the mic says
    if len(heard) == 1:
        if commonness(heard[0]) < UNLISTED:
            return -1.0
        allowed = _allowed_run(text, start, end)
    _, company = text.company(start, end, form.words)
    allowance = allowed + _FOR_WEIGHT * form.weight + 0.03 * company
    if len(form.sounds[0]) < 5:
        allowance -= 0.06
    trade = all(word in text.lexicon.weights or word in lists.function_words for word in heard)
    if trade and form.weight < EXPECTED and not text.broken(start):
        return allowance - 0.05
    own = form.weight >= EXPECTED and len(heard) > 1 and len(form.sounds[0]) >= _LONG
    return max(allowance, _LEAST_OF_OWN) if own else allowance
