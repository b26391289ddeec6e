"""From an annotated script to a recording: captions as an exporter would write them, and the facts that are true of it.

usage: python benchmarks/compile_recording.py FOLDER ...

A folder holds script.txt; captions.vtt, .srt or .txt and gold.json are written beside it. README.md describes the markup.
"""

import json
import re
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

MARK = re.compile(r"\[\[(.*?)\|(.*?)\]\]", re.S)
PAUSE = re.compile(r"\(pause ([\d.]+)\)")
START, LINE_GAP, TAIL = 0.4, 0.35, 1.0  # seconds before the first word, after each line of script, after the last word
# A word lasts a share of the mean word's time that grows with its letters.
SHARE, SHARE_A_LETTER, FEWEST_LETTERS = 0.45, 0.11, 2
SPOKEN = 0.95  # share of a word's time that is sound
WORDS_A_LINE, LINE_BREAK = 9, 1.2  # a caption line ends after so many words or so many seconds of silence
BLOCK = 38.0  # seconds of speech behind one bracketed time

LISTS = {
    "torque": "torques", "size": "sizes", "value": "values", "tool": "tools", "part": "parts", "supply": "supplies",
    "fastener": "fasteners", "slip": "slips", "fine": "fine", "heard": "heard", "hazard": "hazards", "owed": "owed", "order": "order",
}  # fmt: skip
NAMED_ONCE = ("parts", "tools", "supplies", "fasteners")
Fact = dict[str, Any]


class ScriptError(ValueError):
    """A script that breaks the markup."""


@dataclass(frozen=True, slots=True)
class Word:
    """A spoken word. start, end: seconds."""

    text: str
    start: float
    end: float


@dataclass
class Narration:
    """A script as it is spoken: its words in time, and the facts in the order in which they are met."""

    form: str = "vtt"
    per_minute: float = 155.0
    clock: float = START
    words: list[Word] = field(default_factory=list)
    chapters: list[Fact] = field(default_factory=list)
    steps: list[Fact] = field(default_factory=list)
    facts: dict[str, list[Fact]] = field(default_factory=lambda: {name: [] for name in LISTS.values()})
    topic: str | None = None  # of the chapter that the next word opens
    sentences: list[str] = field(default_factory=list)  # steps that begin with the next word

    def speak(self, text: str) -> tuple[float, float]:
        """Say words; returns when they begin and end."""
        begin = self.clock
        for text_of_word in text.split():
            self._open(self.clock)
            letters = len(re.findall(r"\w", text_of_word))
            lasts = 60.0 / self.per_minute * (SHARE + SHARE_A_LETTER * max(FEWEST_LETTERS, letters))
            self.words.append(Word(text_of_word, self.clock, self.clock + lasts * SPOKEN))
            self.clock += lasts
        return begin, self.clock

    def _open(self, time: float) -> None:
        if self.topic is not None:
            self.chapters.append({"t": round(time, 2), "topic": self.topic})
            self.topic = None
        self.steps += [{"t": round(time, 2), "text": sentence} for sentence in self.sentences]
        self.sentences = []

    def gold(self, captions: str) -> dict[str, Any]:
        """All facts as gold.json holds them."""
        facts = dict(self.facts)
        for name in NAMED_ONCE:
            facts[name] = list({fact["name"]: fact for fact in reversed(facts[name])}.values())
            facts[name].sort(key=lambda fact: self.facts[name].index(fact))
        length = {"duration": round(self.clock + TAIL, 2), "words": len(self.words), "captions": captions}
        return {"chapters": self.chapters, "steps": self.steps, **facts, **length}


def narrate(script: str) -> Narration:
    """Speak a script. Raises ScriptError that quotes what is wrong in it."""
    narration = Narration()
    for line in map(str.strip, script.splitlines()):
        pause = PAUSE.fullmatch(line)
        if line.startswith("#"):
            if not narration.words:
                _header(narration, line)
        elif line.startswith("== "):
            narration.topic = line[3:].strip()
        elif line.startswith("> "):
            narration.sentences.append(line[2:].strip())
        elif pause:
            narration.clock += float(pause[1])
        elif line:
            _say(narration, line)
            narration.clock += LINE_GAP
    return narration


def _header(narration: Narration, line: str) -> None:
    key, colon, value = line.lstrip("# ").partition(":")
    if colon and key.strip() == "form":
        narration.form = value.strip()
        if narration.form not in FORMS:
            raise ScriptError(f"unknown form {narration.form!r}: write one of {', '.join(FORMS)}")
    elif colon and key.strip() == "wpm":
        narration.per_minute = float(value)


def _say(narration: Narration, line: str) -> None:
    at = 0
    for mark in MARK.finditer(line):
        narration.speak(line[at : mark.start()])
        if not mark[2].strip():
            raise ScriptError(f"no words are marked in {mark[0]}")
        begin, end = narration.speak(mark[2])
        heard = {"t": round(begin, 2), "end": round(end, 2), "said": mark[2].strip()}
        for note in mark[1].split(";"):
            kind, _, rest = note.strip().partition(" ")
            if kind not in LISTS:
                raise ScriptError(f"unknown mark {note.strip()!r} in {mark[0]}")
            narration.facts[LISTS[kind]].append(heard | _fact(kind, rest.strip()))
        at = mark.end()
    narration.speak(line[at:])


def _fact(kind: str, rest: str) -> Fact:
    first, _, others = rest.partition(" ")
    match kind:
        case "torque" | "value":
            measured, _, item = (part.strip() for part in rest.partition("@"))
            return _measured(kind, measured) | {"item": item or None}
        case "size":
            return {"value": first, "unit": others.strip()}
        case "slip":
            slip, _, should = rest.partition(" should ")
            return {"kind": slip.strip(), "should": should.strip()}
        case "owed":
            return {"kind": first, "about": others}
    name = {"fine": "note", "heard": "meant", "hazard": "id", "order": "text"}.get(kind, "name")
    return {name: rest}


def _measured(kind: str, measured: str) -> Fact:
    """`35 N·m` of a torque; `minimum thickness 22 mm` or `grade DOT4` of another value, whose property ends before the figure."""
    words = measured.split()
    if kind == "torque":
        return {"value": float(words[0]), "unit": " ".join(words[1:])}
    figure = next((i for i, word in enumerate(words) if word[0] in "0123456789." or word.isupper()), None)
    if figure is None:
        raise ScriptError(f"no value in the mark 'value {measured}'")
    return {"property": " ".join(words[:figure]), "value": words[figure], "unit": " ".join(words[figure + 1 :]) or None}


def lines(words: Sequence[Word]) -> Iterator[list[Word]]:
    """Words as caption lines."""
    line: list[Word] = []
    for word in words:
        if line and (len(line) == WORDS_A_LINE or word.start - line[-1].end > LINE_BREAK):
            yield line
            line = []
        line.append(word)
    if line:
        yield line


def clock_time(seconds: float, decimal: str = ".") -> str:
    """hh:mm:ss.mmm, as WebVTT (SubRip with a comma) writes it."""
    hours, rest = divmod(seconds, 3600)
    minutes, rest = divmod(rest, 60)
    return f"{hours:02.0f}:{minutes:02.0f}:{rest:06.3f}".replace(".", decimal)


def _short_time(seconds: float) -> str:
    return f"{int(seconds) // 60}:{int(seconds) % 60:02}"


def _text(words: Sequence[Word]) -> str:
    return " ".join(word.text for word in words)


def _cue(start: float, end: float, decimal: str = ".") -> str:
    return f"{clock_time(start, decimal)} --> {clock_time(end, decimal)}"


def _webvtt(words: Sequence[Word]) -> list[str]:
    cues = [[_cue(line[0].start, line[-1].end), _text(line), ""] for line in lines(words)]
    return ["WEBVTT", "", *(row for cue in cues for row in cue)]


def _rolling(words: Sequence[Word]) -> list[str]:
    """Automatic captions: each line is built up word by word under the one before, then stands a moment alone."""
    rows, above = ["WEBVTT", "Kind: captions", "Language: en", ""], " "
    all_lines = list(lines(words))
    for line, following in zip(all_lines, [*all_lines[1:], None], strict=True):
        start, end = line[0].start, max(line[-1].end, line[0].start + 0.5)
        next_start = following[0].start if following else end + 0.01
        stands = min(end + 0.01, max(end + 0.001, next_start))
        built = line[0].text + "".join(f"<{clock_time(word.start)}><c> {word.text}</c>" for word in line[1:])
        settings = " align:start position:0%"
        rows += [_cue(start, end) + settings, above, built, "", _cue(end, stands) + settings, _text(line), " ", ""]
        above = _text(line)
    return rows


def _subrip(words: Sequence[Word]) -> list[str]:
    cues = [[str(n), _cue(line[0].start, line[-1].end, ","), _text(line), ""] for n, line in enumerate(lines(words), 1)]
    return [row for cue in cues for row in cue]


def _stamped(words: Sequence[Word]) -> list[str]:
    return [row for line in lines(words) for row in (_short_time(line[0].start), _text(line))]


def _bracketed(words: Sequence[Word]) -> list[str]:
    rows: list[str] = []
    block: list[Word] = []
    for word in words:
        block.append(word)
        if word.start - block[0].start > BLOCK or word is words[-1]:
            rows += [f"[{_short_time(block[0].start)}] {_text(block)}", ""]
            block = []
    return rows


FORMS: dict[str, tuple[str, Callable[[Sequence[Word]], list[str]]]] = {
    "vtt": ("captions.vtt", _webvtt),
    "auto-vtt": ("captions.vtt", _rolling),
    "srt": ("captions.srt", _subrip),
    "stamped": ("captions.txt", _stamped),
    "bracket": ("captions.txt", _bracketed),
}


def compile_script(script: str) -> tuple[str, str, dict[str, Any]]:
    """Name and text of the captions, and the facts of a script."""
    narration = narrate(script)
    name, write = FORMS[narration.form]
    return name, "\n".join(write(narration.words)) + "\n", narration.gold(name)


def main() -> int:
    folders = [Path(argument) for argument in sys.argv[1:]]
    if not folders:
        print(__doc__)
        return 2
    for folder in folders:
        try:
            name, captions, gold = compile_script((folder / "script.txt").read_text(encoding="utf-8"))
        except (OSError, ScriptError) as error:
            print(f"{folder / 'script.txt'}: {error}", file=sys.stderr)
            return 2
        (folder / name).write_text(captions, encoding="utf-8")
        (folder / "gold.json").write_text(json.dumps(gold, indent=1, ensure_ascii=False), encoding="utf-8")
        print(f"{folder.name}: {name}, {gold['words']} words, {gold['duration'] / 60:.1f} min")
    return 0


if __name__ == "__main__":
    sys.exit(main())
