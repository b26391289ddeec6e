"""Tasks written as imperative sentences."""

import re
from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from witnessmark.procedure.lexicon import as_written, deeds, word_set
from witnessmark.procedure.spoken import Spoken
from witnessmark.procedure.task import Task

TOOL_WORDS = {
    "socket": "socket",
    "sockets": "socket",
    "wrench": "wrench",
    "spanner": "spanner",
    "key": "hex key",
    "allen": "hex key",
    "allens": "hex key",
    "hex": "hex key",
    "driver": "nut driver",
    "bit": "bit",
    "torx": "bit",
}
LONGEST_SENTENCE = 24
HELPED = "with a helper"
PERSON = re.compile(
    r"\b(i|i'm|im|i've|we|we're|my|our|us|me|you're|your|gonna|wanna|uh|um|okay|guys|gotta|this|these|those)\b",
    re.IGNORECASE,
)


def clause(spoken: Spoken, task: Task, pronoun: str = "") -> str:
    """One action in the imperative, no capital and no full stop.

    pronoun: stands for the thing where it was just named.
    """
    verb, *rest = task.what.words
    thing = pronoun or task.thing
    tails = sorted((tail for tail in task.tails if tail), key=lambda tail: tail.startswith("before "))
    words = [verb]
    listed = len(rest) == 1 and (verb, rest[0]) in deeds()
    if (
        thing
        and len(rest) == 1
        and (rest[0] in word_set("after_thing") or not listed or tails or pronoun or " " in rest[0])
    ):
        words += [thing, *rest]
    else:
        words += [*rest, thing]
    size = _size(spoken, task)
    if size.startswith(" (") and thing:
        words.insert(words.index(thing) + 1, size.strip())
        size = ""
    words += tails
    if task.torque:
        words.append(f"to {task.torque}")
    text = " ".join(word for word in words if word)
    return f"{text}{size}"


def _size(spoken: Spoken, task: Task) -> str:
    """The tool size: with its tool where that was said, else in brackets."""
    if not task.sizes:
        return ""
    size = task.sizes[0]
    after = [spoken.text(i) for i in range(size.end_token, size.end_token + 4)]
    tool = next((TOOL_WORDS[word] for word in after if word in TOOL_WORDS), "")
    if size.shown[0] in "TE" and not tool:
        tool = "bit"
    if tool == "hex key" and size.shown.endswith(" hex"):
        tool = "key"
    if tool:
        return f" with {'an' if size.shown.startswith(('8', '11', '18', 'E')) else 'a'} {size.shown} {tool}"
    return f" ({size.shown})"


def sentence(spoken: Spoken, tasks: Sequence[Task]) -> str:
    """One or two sentences for tasks done together; "" where they cannot be written cleanly."""
    parts: list[str] = []
    breaks: set[int] = set()
    done: set[tuple[str, ...]] = set()
    thing = ""
    last: Task | None = None
    helped = [task for task in tasks if HELPED in task.tails]
    for task in tasks:
        again = bool(thing) and task.thing == thing
        text = clause(spoken, task, ("them" if task.plural else "it") if again else "")
        if thing and task.source == "verb" and task.what.words[0].startswith("check "):
            text = text.replace(f" {thing} ", " they " if last is not None and last.plural else " it ", 1)
        if any(task is other for other in helped[:-1]):
            text = text.replace(f" {HELPED}", "", 1)  # said once, of the last of them
        key = (*task.what.words, task.thing, *task.tails, task.torque)
        plain = key == (task.what.words[0], task.thing, "")  # "push it around, push it"
        told = key in done or (plain and any(said[0] == key[0] and task.thing in said for said in done))
        if PERSON.search(text) is None and not told:
            done.add(key)
            same = last is not None and not again and same_verb(last, task)
            if last is not None and not again and not same and _parted(spoken, last, task):
                breaks.add(len(parts))
            if same:
                text = text.removeprefix(f"{' '.join(task.what.words)} ")
            last = task
            parts.append(text)
            thing = task.thing or thing
    return _joined(parts, breaks)


def _parted(spoken: Spoken, last: Task, task: Task) -> bool:
    """Whether a full stop was spoken or written between two tasks."""
    between = spoken.texts[last.end - 1 : task.start]
    return bool({".", "!", "?"} & set(between))


def same_verb(last: Task, task: Task) -> bool:
    """Whether the verb need not be said again: "tighten the one to ..

    and the other to ...", "remove the cover and the belt".
    """
    plain = not last.tails and not last.sizes and not last.torque
    plain = plain or (last.source == task.source == "value" and last.values[0].kind == task.values[0].kind)
    return last.what.words == task.what.words and bool(task.thing) and (plain or bool(last.torque and task.torque))


def _joined(parts: Sequence[str], breaks: AbstractSet[int]) -> str:
    """Parts as sentences; one begins at each of the breaks, and where the one before is full."""
    sentences: list[list[str]] = []
    for n, part in enumerate(parts):
        verbless = part.split()[0] in word_set("articles")
        length = sum(len(p.split()) for p in sentences[-1]) if sentences else 0
        if sentences and (
            verbless or (n not in breaks and length + len(part.split()) <= LONGEST_SENTENCE and len(sentences[-1]) < 3)
        ):
            sentences[-1].append(part)
        else:
            sentences.append([part])
    return " ".join(_capital(as_written(_listed(group))) + "." for group in sentences)


def _listed(parts: Sequence[str]) -> str:
    """Parts with commas and one "and"; those that share the verb before them are one part."""
    groups: list[list[str]] = []
    for part in parts:
        if groups and part.split()[0] in word_set("articles"):
            groups[-1].append(part)
        else:
            groups.append([part])
    return _with_and([_with_and(group) for group in groups])


def _with_and(parts: Sequence[str]) -> str:
    if len(parts) == 1:
        return parts[0]
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]


def warning(spoken: Spoken, task: Task) -> str:
    """What is not to be done, as one sentence."""
    text = clause(spoken, task)
    return "" if PERSON.search(text) else f"Do not {as_written(text)}."
