"""What each chapter is called: what is done in it."""

from collections import Counter
from collections.abc import Sequence

from witnessmark.procedure.lexicon import phrase_table, word_set
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import FITTING, TAKING, Task

LONGEST = 60
INTRODUCTION, TOOLS, LAST, CHECKS = "Introduction", "Tools and parts", "Wrap-up", "Final checks"


def title_chapters(
    spoken: Spoken, starts: Sequence[int], tasks: Sequence[Task], lists: Sequence[tuple[int, int]]
) -> tuple[str, ...]:
    """One title a chapter, no two alike. starts: first token of each."""
    ends = [*starts[1:], len(spoken.texts)]
    titles: list[str] = []
    for n, (start, end) in enumerate(zip(starts, ends, strict=True)):
        within = [task for task in tasks if start <= task.start < end and not task.negative]
        for title in _offers(within, (start, end), lists, n, len(starts)):
            if title not in titles and len(title) <= LONGEST:
                titles.append(title)
                break
        else:
            titles.append(f"Part {n + 1}")
    return tuple(titles)


def _offers(
    tasks: Sequence[Task], span: tuple[int, int], lists: Sequence[tuple[int, int]], n: int, count: int
) -> list[str]:
    """Titles that would do, best first."""
    listed = sum(max(0, min(end, span[1]) - max(start, span[0])) for start, end in lists)
    offers = []
    if listed > 0.4 * (span[1] - span[0]):
        offers.append(TOOLS)
    if n == 0:
        offers.append(INTRODUCTION)
    if n == count - 1 and len(tasks) < 3:
        offers += [LAST, CHECKS]
    offers += _by_work(tasks)
    return [*offers, *([LAST, CHECKS] if n > count // 2 else ["Before the work", "First look"])]


def _by_work(tasks: Sequence[Task]) -> list[str]:
    """Titles from what is done: the verb of the commonest class, with the things it is done to."""
    verbs = phrase_table("chapters", "titles")
    things: Counter[str] = Counter()
    classes: dict[str, Counter[str]] = {}
    for task in tasks:
        thing = _short(task)
        if thing:
            things[thing] += 2 if task.what.action in TAKING | FITTING else 1
            classes.setdefault(thing, Counter())[task.what.action] += 1
    offers = []
    ranked = [thing for thing, _ in things.most_common()]
    for thing in ranked:
        action = max(classes[thing], key=lambda name: (classes[thing][name], name in TAKING | FITTING, name))
        verb = verbs.get(action, "Check")
        other = next(
            (o for o in ranked if o != thing and o not in thing and thing not in o and classes[o].keys() & {action}), ""
        )
        if other and len(f"{verb} the {thing} and the {other}") <= LONGEST:
            offers.append(f"{verb} the {thing} and the {other}")
        offers.append(f"{verb} the {thing}")
    return offers


def _short(task: Task) -> str:
    """The bare name of a task's thing; "" where it names no one thing."""
    words = task.thing.split(" of ")[0].split(",")[0].split()
    while words and words[0] in word_set("title_drops"):
        words.pop(0)
    named = bool(words) and not words[0][0].isdigit() and words[-1] not in word_set("name_words")
    return " ".join(words[:5]) if named and not (len(words) == 1 and words[0] in word_set("untitled")) else ""
