"""Promises to viewers, against readable sentences and the annotated recordings."""

import json
import tomllib
from pathlib import Path

import pytest

from witnessmark.language.speech import Speech, read_speech
from witnessmark.procedure.promises import find_promises
from witnessmark.transcript.model import Transcript, Word
from witnessmark.transcript.reader import read_transcript

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
PLACES = ("sample_projects", "benchmarks/recordings", "../shared/recordings")
RECORDINGS = sorted(gold.parent for place in PLACES for gold in (ROOT / place).glob("*/gold.json"))
LATE = 6.0
BEFORE_THE_LAST = "and then that one goes on the bench " * 40


def cases() -> list[tuple[str, str]]:
    lines = [
        line.split(maxsplit=1)
        for line in (HERE / "promises_said_owed.txt").read_text(encoding="utf-8").splitlines()
        if line[:1] not in ("", "#")
    ]
    before = {"said": "", "last": BEFORE_THE_LAST}
    return [(before[how] + said, owed) for (how, said), (_, owed) in zip(lines[::2], lines[1::2], strict=True)]


def speech_of(text: str) -> Speech:
    words = tuple(Word(word, i * 0.4, i * 0.4 + 0.3, 0) for i, word in enumerate(text.split()))
    return read_speech(Transcript("webvtt", (), words))


@pytest.mark.parametrize(("said", "owed"), cases())
def test_sentences(said: str, owed: str) -> None:
    assert [promise.kind for promise in find_promises(speech_of(said), ())] == ([] if owed == "nothing" else [owed])


def right_and_due(folder: Path) -> tuple[int, int, int]:
    """Promises of an annotated recording: found at the right time, found in all, and due."""
    project = tomllib.loads((folder / "repair.toml").read_text(encoding="utf-8"))
    links = tuple(project.get("links", {}).items())
    promises = find_promises(read_speech(read_transcript(folder / project["captions"])), links)
    due = json.loads((folder / "gold.json").read_text(encoding="utf-8"))["owed"]
    right = sum(any(abs(promise.start - owed["t"]) <= LATE for promise in promises) for owed in due)
    return right, len(promises), len(due)


def test_annotated_recordings_together() -> None:
    """Floors, so that a fall fails; the aim is every promise, and nothing that is none."""
    read = [right_and_due(folder) for folder in RECORDINGS]
    right, found, due = (sum(numbers) for numbers in zip(*read, strict=True))
    assert right / due >= 0.9
    assert right / found >= 0.9


@pytest.mark.parametrize(
    ("said", "about"),
    [
        ("i'll put a link to the puller down below", "the puller"),
        ("i'll leave links to both kits underneath", "both kits"),
        ("i took a photo of where that wire runs and i'll stick it up with this", "where that wire runs"),
        ("next month we'll do the front struts", "the front struts"),
    ],
)
def test_about(said: str, about: str) -> None:
    (promise,) = find_promises(speech_of(said), ())
    assert promise.about == about


def test_a_link_that_answers_a_promise_is_matched_by_its_words() -> None:
    links = (("Brake pads", "https://parts.example/pads"), ("wheel puller", "https://parts.example/puller"))
    (promise,) = find_promises(speech_of("I'll put a link to the wheel pullers down below."), links)
    assert promise.settled == "wheel puller"


def test_no_link_answers_a_promise_about_something_else() -> None:
    (promise,) = find_promises(
        speech_of("i'll put a link to the gasket down below"), (("wheel puller", "https://parts.example/puller"),)
    )
    assert promise.settled is None


def test_said_in_the_captions_own_words() -> None:
    (promise,) = find_promises(speech_of("I'll drop a List of the Sockets underneath, okay"), ())
    assert promise.said.startswith("I'll drop a List of the Sockets")
    assert 0.0 == promise.start < promise.end


@pytest.mark.parametrize("said", ["", "link", "i'll put a link", "description", "next time", "i'll put a link ..."])
def test_scraps_do_not_break_it(said: str) -> None:
    assert len(find_promises(speech_of(said), ())) <= 1
