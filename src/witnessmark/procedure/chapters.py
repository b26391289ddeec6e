"""The recording divided into chapters: of all divisions the one whose marks stand best and whose parts hang together.

A part hangs together where few words of content fill it (the likelihood of its words against the whole recording's,
as in statistical text
segmentation), and pleases best near a minute. A mark stands well after a pause, at words that begin something, where
new things are named and
where work starts. The best division as a whole is found by dynamic programming.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import log

from witnessmark.procedure.lexicon import kinds, phrase_table
from witnessmark.procedure.spoken import Spoken, closed_words
from witnessmark.procedure.task import FITTING, TAKING, Task

USUAL = 66.0  # seconds: about one chapter a minute
SPREAD = 0.5  # of the logarithm of the length
SHORTEST = 12.0
LONGEST = 150.0
LIMIT = 240.0  # no part is longer
COHESION = 0.05  # weight of how few words fill a part
COST = 2.0  # of one more mark
# of what speaks for a mark; common sense, rounded to halves
WEIGHTS = {
    "parted": 3.5,
    "opener": 2.0,
    "fresh": 3.0,
    "early": 1.5,
    "dropped": 1.5,
    "task": 1.0,
    "list": 3.0,
    "ends": 2.0,
    "phase": 1.0,
    "continues": -4.0,
}


@dataclass(frozen=True, slots=True)
class Mark:
    """A place where a chapter may begin. token: first token. start: seconds. score: how well it stands."""

    token: int
    start: float
    score: float


def divide(spoken: Spoken, tasks: Sequence[Task], lists: Sequence[tuple[int, int]]) -> tuple[Mark, ...]:
    """The chapters' first tokens, the first at the start of the recording. tasks: in order of start."""
    content = _content(spoken)
    marks = _marks(spoken, tasks, lists, content)
    times = [mark.start for mark in marks] + [spoken.speech.tokens[-1].end]
    starts = [mark.token for mark in marks] + [len(content)]
    gain = _Cohesion(content)
    best = [0.0] + [float("-inf")] * (len(marks) - 1)
    came = [0] * len(marks)
    total = float("-inf")
    last = 0
    for first in range(len(marks)):
        if best[first] == float("-inf"):
            continue
        gain.begin()
        for end in range(first + 1, len(times)):
            within = gain.add(starts[end - 1], starts[end])
            seconds = times[end] - times[first]
            if seconds > LIMIT and end > first + 1:
                break
            value = best[first] + _length(seconds, end == len(marks)) + COHESION * within
            if end == len(marks):
                if value > total:
                    total, last = value, first
            elif value + marks[end].score - COST > best[end]:
                best[end], came[end] = value + marks[end].score - COST, first
    chain = [last]
    while chain[-1] > 0:
        chain.append(came[chain[-1]])
    return tuple(marks[n] for n in reversed(chain))


def _length(seconds: float, last: bool = False) -> float:
    """How well a chapter's length pleases: best near a minute, never under the shortest."""
    if seconds < SHORTEST:
        return -100.0
    miss = log(seconds / USUAL) / SPREAD
    if last and miss < 0:
        miss *= 0.5
    return -0.5 * miss * miss - (8.0 if seconds > LONGEST else 0.0)


class _Cohesion:
    """How few words fill a part:
    the likelihood of its words by their own counts, against the counts of the whole recording.
    """

    def __init__(self, content: Sequence[str]) -> None:
        self._content = content
        self._whole = Counter(word for word in content if word)
        size = max(1, sum(self._whole.values()))
        self._rare = {word: -log(count / size) for word, count in self._whole.items()}
        self.begin()

    def begin(self) -> None:
        """Start an empty part."""
        self._count: Counter[str] = Counter()
        self._words = 0
        self._sum = 0.0

    def add(self, start: int, end: int) -> float:
        """Add tokens start..end (exclusive) and tell the gain of the part so far."""
        for word in self._content[start:end]:
            if word:
                count = self._count[word] + 1
                self._count[word] = count
                self._words += 1
                self._sum += count * log(count) - (count - 1) * log(max(1, count - 1)) + self._rare[word]
        return self._sum - self._words * log(max(1, self._words))


def _marks(
    spoken: Spoken, tasks: Sequence[Task], lists: Sequence[tuple[int, int]], content: Sequence[str]
) -> list[Mark]:
    """Every utterance start with its score, the mean of all taken off; the first token always."""
    found = []
    for utterance in spoken.utterances[1:]:
        parts = _features(spoken, tasks, lists, content, utterance.start, utterance.parted)
        found.append((utterance.start, sum(WEIGHTS[name] * value for name, value in parts.items())))
    mean = sum(score for _, score in found) / max(1, len(found))
    return [
        Mark(0, 0.0, 0.0),
        *(Mark(token, spoken.speech.tokens[token].start, score - mean) for token, score in found),
    ]


def _features(
    spoken: Spoken,
    tasks: Sequence[Task],
    lists: Sequence[tuple[int, int]],
    content: Sequence[str],
    token: int,
    parted: float,
) -> dict[str, float]:
    """What speaks for a mark at a token, each from 0 to 1."""
    begins = phrase_table("chapters", "begins")
    return {
        "parted": parted,
        "opener": _opener(spoken, token),
        "fresh": _fresh(spoken, token),
        "early": _early(content, token),
        "dropped": _dropped(content, token),
        "task": float(bisect_left(tasks, token, key=_start) < bisect_left(tasks, token + 15, key=_start)),
        "list": float(any(token in (start, end) for start, end in lists)),
        "ends": float(_ends(spoken, token)),
        "phase": _phase(tasks, token),
        "continues": float(spoken.texts[token] in begins["continues"]),
    }


def _opener(spoken: Spoken, token: int) -> float:
    table = phrase_table("chapters", "begins")
    for name, value in (("strong", 1.0), ("weak", 0.5)):
        for form in table[name]:
            words = tuple(form.split())
            if spoken.texts[token : token + len(words)] == words:
                return value
    return 0.0


def _ends(spoken: Spoken, token: int) -> bool:
    """Whether the words that wind up a recording begin near a token, in its last quarter."""
    if token < len(spoken.texts) * 0.75:
        return False
    said = " ".join(spoken.texts[token : token + 7])
    return any(form in said for form in phrase_table("chapters", "begins")["ends"])


def _content(spoken: Spoken) -> tuple[str, ...]:
    """For every token its word of content, "" for words that tell nothing of the subject."""
    things = spoken.sighting_over
    return tuple(
        lemma
        if i in things or (len(text) > 2 and text not in closed_words() and text.isalpha() and kinds(text).noun)
        else ""
        for i, (text, lemma) in enumerate(zip(spoken.texts, spoken.speech.lemmas, strict=True))
    )


def _fresh(spoken: Spoken, token: int) -> float:
    """Share of the things named just after a token that were not named in the minute before."""
    after = {
        spoken.sighting_over[i].name
        for i in range(token, min(len(spoken.texts), token + 30))
        if i in spoken.sighting_over
    }
    before = {spoken.sighting_over[i].name for i in range(max(0, token - 120), token) if i in spoken.sighting_over}
    return len(after - before) / len(after) if after else 0.0


def _early(content: Sequence[str], token: int) -> float:
    """How many of the first words are new."""
    before = set(content[max(0, token - 200) : token])
    return min(1.0, len([word for word in content[token : token + 14] if word and word not in before]) / 3)


def _dropped(content: Sequence[str], token: int) -> float:
    """Share of what was talked about just before that is not talked about after."""
    counts = Counter(word for word in content[max(0, token - 120) : token] if word)
    often = {word for word, count in counts.items() if count >= 2}
    after = set(content[token : token + 120])
    return len(often - after) / len(often) if often else 0.5


def _start(task: Task) -> int:
    return task.start


def _phase(tasks: Sequence[Task], token: int) -> float:
    """Whether work turns at a token from taking apart to putting together or back."""
    first, at, end = (bisect_left(tasks, place, key=_start) for place in (token - 90, token, token + 90))
    before = [task.what.action for task in tasks[first:at]]
    after = [task.what.action for task in tasks[at:end]]
    return abs(_leaning(before) - _leaning(after)) / 2


def _leaning(actions: Sequence[str]) -> float:
    taking = sum(action in TAKING for action in actions)
    fitting = sum(action in FITTING for action in actions)
    return (fitting - taking) / (fitting + taking) if fitting + taking else 0.0
