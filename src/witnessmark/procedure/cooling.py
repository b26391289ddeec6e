"""What has to be cold before the work: said as "let it cool", or as how long it has been standing."""

from witnessmark.language.cues import find_cues
from witnessmark.procedure.lexicon import Deed, word_set
from witnessmark.procedure.spoken import Spoken, display
from witnessmark.procedure.task import Task

NEAR = 14  # tokens from the words that tell to the thing that was hot
EARLY = 0.5  # share of the recording in which the machine is still to be opened


def cooling_tasks(spoken: Spoken) -> list[Task]:
    """At most one task: the first time that something is said to be cold, or to have to be."""
    told = find_cues(spoken.texts, "cooling", "procedure/order.toml").spans.get("told", ())
    for start, end in sorted([*told, *_just_run(spoken)])[:1]:
        if start < int(len(spoken.texts) * EARLY):
            thing = _hot(spoken, start, end)
            return [Task(start, end, Deed(("let",), "wait"), thing, False, ["cool down", "first"], False, "verb", True)]
    return []


def _just_run(spoken: Spoken) -> list[tuple[int, int]]:
    """Where the machine is said to have run a moment ago: "i rode it in here ten minutes ago"."""
    runs = word_set("has_run")
    return [
        (i - 1, i + 1)
        for i in range(1, len(spoken.texts))
        if spoken.texts[i] == "ago"
        and spoken.texts[i - 1] in ("minutes", "minute")
        and runs & set(spoken.texts[max(0, i - NEAR) : i])
    ]


def _hot(spoken: Spoken, start: int, end: int) -> str:
    """The thing in the same breath that gets hot, or the engine, or the whole machine."""
    hot = word_set("gets_hot")
    near = [
        s for s in spoken.sightings if start - NEAR <= s.start < end + NEAR and hot & set(spoken.texts[s.start : s.end])
    ]
    if near:
        return f"the {display(spoken, min(near, key=lambda s: abs(s.start - start)))}"
    words = [i for i in range(max(0, start - NEAR), min(end + NEAR, len(spoken.texts))) if spoken.texts[i] in hot]
    if words:
        return f"the {spoken.texts[min(words, key=lambda i: abs(i - start))]}"
    return f"the {spoken.engine or spoken.machine}"
