"""What speaks for a chapter to begin at a place: how it is parted from what was said before, the words it begins with,
and how the things talked about change there.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from math import log

from witnessmark.language.utterances import is_coarse, is_punctuated
from witnessmark.language.vocabulary import tokens_of
from witnessmark.procedure.lexicon import acting_verbs, forms_among, kinds, phrase_table, word_set
from witnessmark.procedure.spoken import Spoken, closed_words
from witnessmark.procedure.talk import Talk
from witnessmark.procedure.task import FITTING, TAKING, Task

Table = Mapping[str, float]

UNTOLD = 0.35  # how surely a place is parted that only the words tell
TOOLS = 0.3  # share of the recording in which the things needed are told
# tokens looked at, about 2.5 a second
JUST_TORQUED, TORQUED_AGAIN, SOON, MUCH, AT_ONCE = 14, 12, 40, 4, 4
MINUTE, LONG_BEFORE, SHORTLY_AFTER, FIRST, OPENING, WORK = 120, 200, 30, 14, 8, 90


@dataclass(frozen=True, slots=True)
class Place:
    """Where a chapter may begin. token: its first. start: seconds. cues: by their names in data/procedure/chapters.toml,
    each 0 where it says nothing and 1 where it says all it can.
    """

    token: int
    start: float
    cues: Table


def find_places(
    spoken: Spoken, tasks: Sequence[Task], lists: Sequence[tuple[int, int]], talk: Sequence[Talk]
) -> list[Place]:
    """Every place in order, the start of the recording first. tasks: in order of start."""
    content = _content(spoken)
    parted = {utterance.start: utterance.parted for utterance in spoken.utterances}
    asides = {i for stretch in talk for i in range(stretch.start, stretch.end)}
    torques = [value.end_token for value in spoken.values if value.kind == "torque" and not value.quoted]
    found = [Place(0, 0.0, {})]
    for token in sorted({*parted, *_untold(spoken, tasks)} - {0}):
        cues = {
            "parted": parted.get(token, UNTOLD),
            "opener": (opener := _opener(spoken, token)),
            "continues": float(opener < 1.0 and spoken.texts[token] in _words("continues")),
            "list": float(any(token in span for span in lists) or tells_needs(spoken, token)),
            "closing": float(_closing(spoken, token)),
            "aside": float(any(i in asides for i in range(token - 10, token))),
            "pronouns": _share(spoken.text(i) in _words("pronouns") for i in range(token, token + 7)),
            "subject": (
                _fresh(spoken, token) + _early(content, token) + _dropped(content, token) + _taken_up(spoken, token)
            )
            / 4,
            "phase": _phase(tasks, token),
            "torqued": float(_torqued(torques, token)),
            "worked": min(1.0, _begun(tasks, token, token + SOON) / MUCH),
            "named": float(any(i in spoken.sighting_over for i in range(token, token + AT_ONCE))),
            "scene": float(_scene(spoken, token)),
        }
        found.append(Place(token, spoken.speech.tokens[token].start, cues))
    return found


def _untold(spoken: Spoken, tasks: Sequence[Task]) -> Iterator[int]:
    """Places inside utterances, for captions that tell neither full stops nor pauses: where work is told, an opener is
    said or a thing begins a clause ("wheel off").
    """
    if is_punctuated(spoken.speech) or not is_coarse(spoken.speech):
        return
    yield from (task.start for task in tasks)
    for i, text in enumerate(spoken.texts):
        if text in _words("always") or (text == "right" and _is_call(spoken, i)):
            yield i
    yield from (sighting.start for sighting in spoken.sightings if _heads(spoken, sighting.start, sighting.end))


def _is_call(spoken: Spoken, index: int) -> bool:
    """Whether "right" calls for attention and tells neither a side nor a place."""
    before, after = spoken.text(index - 1), spoken.text(index + 1)
    return after not in word_set("prepositions") | word_set("particles") | {"there", "hand", "side", "way"} and not (
        before in word_set("leads_noun") or before == "'s"
    )


def _heads(spoken: Spoken, start: int, end: int) -> bool:
    """Whether a name begins a clause by the words around it: nothing before leads up to it, and a place or a verb
    follows.
    """
    before = spoken.text(start - 1)
    particle = before in word_set("particles")
    kind = kinds(before)
    leads = (
        before in word_set("determiners") | word_set("conjunctions") | word_set("auxiliaries") | word_set("numbers")
        or (before in word_set("prepositions") and not particle)
        or (kind.adjective and not particle)
        or (kind.verb in acting_verbs() and not particle)
        or start - 1 in spoken.value_over
        or start - 1 in spoken.sighting_over
    )
    return start > 0 and not leads and spoken.text(end) in _words("follow_head")


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(phrase_table("chapters", "words")[name])


@cache
def _phrases(name: str) -> tuple[tuple[str, ...], ...]:
    return tuple(tokens_of(form) for form in phrase_table("chapters", "words")[name])


def _opener(spoken: Spoken, token: int) -> float:
    if any(spoken.texts[token : token + len(form)] == form for form in _phrases("openers")):
        return 1.0
    return 0.6 if spoken.texts[token] in _words("weak_openers") else 0.0


def tells_needs(spoken: Spoken, token: int) -> bool:
    """Whether the first words begin to tell what is needed."""
    if token > len(spoken.texts) * TOOLS:
        return False
    return bool(forms_among(spoken.texts[token : token + 9], map(" ".join, _phrases("needs"))))


def _closing(spoken: Spoken, token: int) -> bool:
    """Whether what was said before ends with the words that close a piece of work."""
    words = [text for text in spoken.texts[max(0, token - 4) : token] if text.isalpha()]
    return any(word in _words("closings") for word in words[-2:])


def _share(those: Iterator[bool]) -> float:
    return sum(those) / 3


def _torqued(torques: Sequence[int], token: int) -> bool:
    """Whether a torque was told just before and none follows at once: something was just closed up. torques: tokens behind them."""
    i = bisect_left(torques, token)
    last, following = torques[i - 1] if i else None, torques[i] if i < len(torques) else None
    return (
        last is not None and token - last <= JUST_TORQUED and (following is None or following - token > TORQUED_AGAIN)
    )


def _begun(tasks: Sequence[Task], start: int, end: int) -> int:
    """How many tasks begin between two tokens."""
    return bisect_left(tasks, end, key=_start) - bisect_left(tasks, start, key=_start)


def _scene(spoken: Spoken, token: int) -> bool:
    """Whether the first words lead to another place: "back under the sink", "now up at the bar"."""
    at = token + (spoken.text(token) in _words("before_scene"))
    follow = spoken.texts[at + 1 : token + 4]
    return spoken.text(at) in _words("scene") and not _words("scene_of").isdisjoint(follow)


# --- what the talk is about


def _content(spoken: Spoken) -> tuple[str, ...]:
    """For every token its word of content, "" for words that tell nothing of the subject."""
    things = spoken.sighting_over
    return tuple(
        lemma
        if i in things or (len(text) > 2 and text not in closed_words() and text.isalpha() and kinds(text).noun)
        else ""
        for i, (text, lemma) in enumerate(zip(spoken.texts, spoken.speech.lemmas, strict=True))
    )


def _named(spoken: Spoken, start: int, end: int) -> Counter[str]:
    """How often each thing is named between two tokens, by the tokens of its names."""
    over = spoken.sighting_over
    return Counter(over[i].name for i in range(max(0, start), min(len(spoken.texts), end)) if i in over)


def _fresh(spoken: Spoken, token: int) -> float:
    """Share of the things named just after a token that were not named in the minute before."""
    after = set(_named(spoken, token, token + SHORTLY_AFTER))
    return len(after - set(_named(spoken, token - MINUTE, token))) / len(after) if after else 0.0


def _taken_up(spoken: Spoken, token: int) -> float:
    """How much more the thing named first is talked about in the minute after than in the one before."""
    first = _named(spoken, token, token + FIRST)
    before, after = _named(spoken, token - MINUTE, token), _named(spoken, token, token + MINUTE)
    return min(1.0, max((log((after[name] + 0.5) / (before[name] + 0.5)) for name in first), default=0.0) / 2)


def _early(content: Sequence[str], token: int) -> float:
    """How many of the first words are new."""
    before = set(content[max(0, token - LONG_BEFORE) : token])
    return min(1.0, len([word for word in content[token : token + FIRST] if word and word not in before]) / 3)


def _dropped(content: Sequence[str], token: int) -> float:
    """Share of what was talked about just before that is not talked about after."""
    counts = Counter(word for word in content[max(0, token - MINUTE) : token] if word)
    often = {word for word, count in counts.items() if count >= 2}
    return len(often - set(content[token : token + MINUTE])) / len(often) if often else 0.5


def _phase(tasks: Sequence[Task], token: int) -> float:
    """Whether work turns at a token from taking apart to putting together or back."""
    first, at, end = (bisect_left(tasks, place, key=_start) for place in (token - WORK, token, token + WORK))
    return abs(_leaning(tasks[first:at]) - _leaning(tasks[at:end])) / 2


def _start(task: Task) -> int:
    return task.start


def _leaning(tasks: Sequence[Task]) -> float:
    taking = sum(task.what.action in TAKING for task in tasks)
    fitting = sum(task.what.action in FITTING for task in tasks)
    return (fitting - taking) / (fitting + taking) if fitting + taking else 0.0
