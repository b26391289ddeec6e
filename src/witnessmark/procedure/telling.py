"""How fully a step is told: the chance that it is one somebody would write down by itself.

"Remove the cover" alone is hardly a step, "Remove the four cover screws with a T20 bit" is. The chance is a logistic
function of what the step tells (data/procedure/telling.toml); what it is a step of counts for nothing.
"""

from collections.abc import Mapping, Sequence
from functools import cache
from math import exp

from witnessmark.procedure.lexicon import phrase_table, word_set
from witnessmark.procedure.rewrite import sentence
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import Task

MANY = 3  # tasks that count as one
LONG = 20  # words that count as one
ENDING = 0.92  # share of the recording behind which a speaker takes leave
BEFORE, BEHIND = 12, 6  # tokens around a step in which others are spoken of


@cache
def weights() -> Mapping[str, float]:
    """The weights of data/procedure/telling.toml."""
    return phrase_table("telling", "weights")


def chance(spoken: Spoken, group: Sequence[Task]) -> float:
    """The chance, 0 to 1, that tasks done in one go are told as a step of their own."""
    known = weights()
    total = known["step"] + sum(known[name] * value for name, value in marks(spoken, group).items())
    return 1 / (1 + exp(-total))


def marks(spoken: Spoken, group: Sequence[Task]) -> dict[str, float]:
    """What tasks done in one go tell, by the names of the weights. group: in order of start."""
    do = [task for task in group if not task.negative]
    return {
        "tasks": min(len(do), MANY) / MANY,
        "words": len(sentence(spoken, do).split()) / LONG,
        "parted": spoken.utterances[spoken.utterance_of[group[0].start]].parted,
        "warning": float(not do),
        "torque": float(any(task.torque for task in do)),
        "size": float(any(task.sizes for task in do)),
        "value": float(any(task.values for task in do)),
        "how": float(any(task.tails for task in do)),
        "full_name": float(any(len(task.thing.split()) > 2 for task in do)),  # the article is one
        "pronoun": float(any(task.guessed for task in do)),
        "ending": float(group[0].start > ENDING * len(spoken.texts)),
        "others": _others(spoken, group),
    } | {f"as_{source}": 1.0 for source in sorted({task.source for task in group})}


def _others(spoken: Spoken, group: Sequence[Task]) -> float:
    """How much is said around of other people, other times and what would be."""
    around = spoken.texts[max(0, group[0].start - BEFORE) : group[-1].end + BEHIND]
    return min(4, sum(word in word_set("of_others") for word in around)) / 4
