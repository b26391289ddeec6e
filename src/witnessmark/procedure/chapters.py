"""The recording divided into chapters: of all divisions the one whose marks stand best and whose parts are neither short nor long."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import log, sqrt

from witnessmark.language.utterances import is_coarse
from witnessmark.procedure.lexicon import kinds, phrase_table
from witnessmark.procedure.spoken import Spoken, closed_words
from witnessmark.procedure.tasks import FITTING, TAKING, Task

USUAL = 58.0  # seconds: about one chapter a minute
SPREAD = 0.55  # of the logarithm of the length
SHORTEST = 12.0
LONGEST = 190.0
WINDOW = 75  # content is compared over so many tokens before and after
WEIGHTS = {"pause": 0.7, "opener": 1.1, "cohesion": 2.6, "fresh": 1.2, "phase": 0.8, "list": 2.0, "end": 1.0}
COST = 2.0  # of one more mark


@dataclass(frozen=True, slots=True)
class Mark:
    """A place where a chapter may begin. token: first token. start: seconds. score: how well it stands."""

    token: int
    start: float
    score: float


def divide(spoken: Spoken, tasks: Sequence[Task], lists: Sequence[tuple[int, int]]) -> tuple[Mark, ...]:
    """The chapters' first tokens, the first at the start of the recording."""
    marks = _marks(spoken, tasks, lists)
    if not marks:
        return ()
    end = spoken.speech.tokens[-1].end
    best: list[float] = [0.0] * len(marks)
    came: list[int] = [-1] * len(marks)
    for n in range(1, len(marks)):
        options = [(best[m] + _length(marks[n].start - marks[m].start), m) for m in range(n) if m == 0 or came[m] >= 0]
        if options:
            value, came[n] = max(options, key=lambda option: (option[0], -option[1]))
            best[n] = value + marks[n].score - COST
    last = max(range(len(marks)), key=lambda n: best[n] + _length(end - marks[n].start, last=True) if n == 0 or came[n] >= 0 else float("-inf"))
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
    return -0.5 * miss * miss - (4.0 if seconds > LONGEST else 0.0)


def _marks(spoken: Spoken, tasks: Sequence[Task], lists: Sequence[tuple[int, int]]) -> list[Mark]:
    """Every utterance start with its score; the first token always."""
    content = _content(spoken)
    found = [Mark(0, 0.0, 0.0)]
    for utterance in spoken.utterances[1:]:
        parts = _features(spoken, tasks, lists, content, utterance.start, utterance.parted)
        score = sum(WEIGHTS[name] * value for name, value in parts.items())
        found.append(Mark(utterance.start, spoken.speech.tokens[utterance.start].start, score))
    return found


def _features(spoken: Spoken, tasks: Sequence[Task], lists: Sequence[tuple[int, int]], content: Sequence[str], token: int, parted: float) -> dict[str, float]:
    return {
        "pause": parted,
        "opener": _opener(spoken, token),
        "cohesion": 1.0 - _cohesion(content, token),
        "fresh": _fresh(spoken, token),
        "phase": _phase(tasks, token),
        "list": float(any(token == start or token == end for start, end in lists)),
        "end": float(_ends(spoken, token)),
    }


def _opener(spoken: Spoken, token: int) -> float:
    table = phrase_table("chapters", "begins")
    for name, value in (("strong", 1.0), ("weak", 0.4)):
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
        lemma if i in things or (len(text) > 2 and text not in closed_words() and text.isalpha() and kinds(text).noun) else ""
        for i, (text, lemma) in enumerate(zip(spoken.texts, spoken.speech.lemmas, strict=True))
    )


def _cohesion(content: Sequence[str], token: int) -> float:
    """How alike the words before and after a token are: cosine of their counts, from 0 to 1."""
    before = Counter(word for word in content[max(0, token - WINDOW) : token] if word)
    after = Counter(word for word in content[token : token + WINDOW] if word)
    product = sum(count * after[word] for word, count in before.items())
    size = sqrt(sum(c * c for c in before.values()) * sum(c * c for c in after.values()))
    return product / size if size else 0.0


def _fresh(spoken: Spoken, token: int) -> float:
    """Share of the things named just after a token that were not named in the minute before."""
    after = {s.name for s in spoken.sightings if token <= s.start < token + 30}
    before = {s.name for s in spoken.sightings if token - 120 <= s.start < token}
    return len(after - before) / len(after) if after else 0.0


def _phase(tasks: Sequence[Task], token: int) -> float:
    """Whether work turns at a token from taking apart to putting together or back."""
    before = [t.what.action for t in tasks if token - 90 <= t.start < token]
    after = [t.what.action for t in tasks if token <= t.start < token + 90]
    return abs(_leaning(before) - _leaning(after)) / 2


def _leaning(actions: Sequence[str]) -> float:
    taking = sum(action in TAKING for action in actions)
    fitting = sum(action in FITTING for action in actions)
    return (fitting - taking) / (fitting + taking) if fitting + taking else 0.0


def is_rough(spoken: Spoken) -> bool:
    """Whether the captions' times are too rough for pauses to tell."""
    return is_coarse(spoken.speech)
