"""What each chapter is called: what is done in it, to the thing that it is most about.

Only things that the vocabulary or the table names can stand in a title: a title is read without the picture.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from witnessmark.language.vocabulary import tokens_of
from witnessmark.language.words import singular
from witnessmark.procedure.chapter_cues import tells_needs
from witnessmark.procedure.lexicon import as_written, phrase_table, word_set
from witnessmark.procedure.spoken import Spoken, display
from witnessmark.procedure.stages import comes_apart
from witnessmark.procedure.talk import recap_start
from witnessmark.procedure.task import FITTING, TAKING, Task
from witnessmark.reading.sightings import Sighting

LONGEST = 60
INTRODUCTION, BOTH, TOOLS = "Introduction", "Introduction and tools", "Tools and parts"
RECAP, LAST = "Recap and wrap-up", "Wrap-up"
AROUND = frozenset({INTRODUCTION, BOTH, TOOLS, RECAP, LAST})
"""Titles of chapters around the work itself."""
RARE = 0.25  # how much it tells that a thing is named in one chapter only
LISTED = 0.4  # share of a chapter that lists tools
FEW = 2  # tasks of the last chapter that are still no work
ANNOUNCED = 14  # first tokens of a chapter, in which it is said what it is about
MAIN = TAKING | FITTING | {"clean", "measure", "test", "adjust", "cut"}
POURED = ("fill", "drain")
SECOND = 0.6  # share of the first thing's weight that a second needs to stand beside it
AGAINST = 0.5  # what a thing counts that is fitted where the others come apart, or comes off where they go together


@dataclass
class Subject:
    """A thing that a chapter may be about. weight: how much it is. deeds: classes of action done to it, weighed."""

    name: str
    weight: float = 0.0
    deeds: Counter[str] = field(default_factory=Counter)
    fastener: bool = False
    stuff: bool = False


def title_chapters(
    spoken: Spoken, starts: Sequence[int], tasks: Sequence[Task], lists: Sequence[tuple[int, int]]
) -> tuple[str, ...]:
    """One title a chapter, no two alike. starts: first token of each."""
    spans = list(zip(starts, [*starts[1:], len(spoken.texts)], strict=True))
    topics = _topics(spoken, spans)
    titles: list[str] = []
    for n, span in enumerate(spans):
        within = [task for task in tasks if span[0] <= task.start < span[1] and not task.negative]
        apart = comes_apart(spoken, tasks, sum(span) // 2)
        edges = _edges(spoken, span, within, lists, n, len(starts))
        offers = (*edges, *topics[span], *_work(spoken, span, within, apart))
        free = (title for title in offers if len(title) <= LONGEST and title not in titles)
        titles.append(next(free, f"Part {n + 1}"))
    return tuple(titles)


def _edges(
    spoken: Spoken,
    span: tuple[int, int],
    tasks: Sequence[Task],
    lists: Sequence[tuple[int, int]],
    n: int,
    count: int,
) -> Iterator[str]:
    """Titles of chapters in which nobody works."""
    listed = sum(max(0, min(end, span[1]) - max(start, span[0])) for start, end in lists)
    if n == 0:
        told_later = span[1] < len(spoken.texts) and tells_needs(spoken, span[1])
        yield BOTH if listed > LISTED * (span[1] - span[0]) and not told_later else INTRODUCTION
    elif listed > LISTED * (span[1] - span[0]) or tells_needs(spoken, span[0]):
        yield TOOLS
    elif n == count - 1:
        recap = recap_start(spoken)
        if len([task for task in tasks if task.what.action in MAIN and task.start < recap]) < FEW:
            yield RECAP if span[0] - ANNOUNCED <= recap < span[1] else LAST


def _work(spoken: Spoken, span: tuple[int, int], tasks: Sequence[Task], apart: bool) -> Iterator[str]:
    """Titles from the work of a chapter, best first. apart: whether things come apart in it."""
    subjects = list(_subjects(spoken, span, tasks))
    for subject in subjects:
        if _deed(subject.deeds) in (FITTING - {"apply", "lubricate", "fill"} if apart else TAKING - {"drain", "open"}):
            subject.weight *= AGAINST
    subjects.sort(key=lambda subject: -subject.weight)
    worked = [subject for subject in subjects if subject.deeds]
    for n, subject in enumerate(worked):
        verb = _verb(subject)
        head = singular(subject.name.split()[-1])
        others = (
            other.name
            for other in worked[n + 1 :]
            if other.weight >= SECOND * subject.weight
            and _verb(other) == verb
            and singular(other.name.split()[-1]) != head
        )
        second = next(others, "")
        if second and not verb.endswith("with") and len(f"{verb} the {subject.name} and {second}") <= LONGEST:
            yield f"{verb} the {subject.name} and {second}"
        yield f"{verb} {subject.name}" if verb.endswith("with") else f"{verb} the {subject.name}"
    usual = _deed(Counter(task.what.action for task in tasks if task.what.action in MAIN))
    yield from (f"Work on the {subject.name}" for subject in subjects if usual and not subject.stuff)
    yield from (f"A look at the {subject.name}" for subject in subjects)
    yield phrase_table("chapters", "alone").get(usual, "The work goes on")


def _verb(subject: Subject) -> str:
    """What is done to a thing, as a title says it."""
    verbs = phrase_table("chapters", "titles")
    if subject.deeds["fit"] and subject.deeds["remove"]:
        return str(verbs["replace"])
    deed = _deed(subject.deeds)
    if deed == "fill" and subject.stuff:
        return str(verbs["fill_with"])
    if deed == "adjust":
        return str(phrase_table("chapters", "adjusting").get(_last(subject.name), verbs[deed]))
    return str(verbs["fit" if deed == "tighten" and not subject.fastener else deed])


def _topics(spoken: Spoken, spans: Sequence[tuple[int, int]]) -> dict[tuple[int, int], list[str]]:
    """Titles of work that is known by what is said rather than by one thing, each for the chapters in which most of its
    cues are said, and enough of them; of what is told often in passing, every chapter with enough.
    """
    found: dict[tuple[int, int], list[str]] = {span: [] for span in spans}
    said = {span: f" {' '.join(spoken.texts[slice(*span)])} " for span in spans}
    for row in phrase_table("chapters", "topics").values():
        cues = [f" {' '.join(tokens_of(form))} " for form in row["cues"]]
        counts = {span: sum(cue in words for cue in cues) for span, words in said.items()}
        for span, count in counts.items():
            if count >= row["enough"] and (row.get("often") or count == max(counts.values())):
                found[span].append(str(row["title"]).format(machine=spoken.machine))
    return found


def _deed(deeds: Counter[str]) -> str:
    """The class of action that counts most; "" where there is none."""
    return min(deeds, key=lambda name: (-deeds[name], name not in TAKING | FITTING, name)) if deeds else ""


def _subjects(spoken: Spoken, span: tuple[int, int], tasks: Sequence[Task]) -> Iterator[Subject]:
    """The things named in a chapter, weighed by how often they are named, whether here more than elsewhere and first."""
    here: dict[str, list[Sighting]] = {}
    total: Counter[str] = Counter()
    for sighting in spoken.sightings:
        total[_head(sighting)] += 1
        if span[0] <= sighting.start < span[1]:
            here.setdefault(_head(sighting), []).append(sighting)
    for head, named in here.items():
        of_it = [task for task in tasks if head == _last(_bare(task.thing))]
        done = Counter[str]()
        for task in of_it:
            done[task.what.action] += 2 if task.what.action in MAIN else task.what.action == "lift"
        done += Counter()  # without those that count nothing
        stuff = head in phrase_table("chapters", "words")["fluids"] or all(each.kind == "supply" for each in named)
        name = _name([display(spoken, sighting) for sighting in named], [task.thing for task in of_it])
        if not name or all(sighting.kind == "tool" for sighting in named) or head in word_set("no_subject"):
            continue
        done = Counter({deed: n for deed, n in done.items() if (deed in POURED if stuff else deed != "fill")})
        first = 2 if named[0].start < span[0] + ANNOUNCED else 0
        weight = (len(named) + 1.5 * sum(done.values()) + first) * (len(named) / total[head]) ** RARE
        fastener = all(sighting.kind == "fastener" for sighting in named)
        yield Subject(name, weight * (0.6 if fastener else 1.0), done, fastener, stuff)


def _head(sighting: Sighting) -> str:
    return _last(_bare(sighting.name))


def _last(name: str) -> str:
    return singular(name.split()[-1]) if name else ""


def _name(said: Sequence[str], worked_on: Sequence[str]) -> str:
    """The name that a thing is given most in a chapter, rather one of some words; "" where it would not tell which thing
    is meant.
    """
    names = Counter(_bare(name) for name in said)
    names += Counter({name: 2 for name in map(_bare, worked_on) if name in names})
    name = max(names, key=lambda one: (names[one] + 1.5 * (1 < len(one.split()) <= 4), len(one), one))
    words = name.split()
    vague = word_set("name_words") | word_set("machines") | frozenset(phrase_table("chapters", "words")["untitled"])
    if not words or words[0][0].isdigit() or words[-1] in vague:
        return ""
    alone = len(words) == 1 and singular(words[0]) in word_set("generic_fasteners") | word_set("untitled")
    return "" if alone else as_written(name)


def _bare(thing: str) -> str:
    """A name without article, count and what follows it."""
    words = thing.split(" of ")[0].split(",")[0].split()
    while words and words[0] in word_set("title_drops"):
        words.pop(0)
    return " ".join(words)
