"""Chapters: where they begin and what they are called."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from narration import procedure_of

PARTS = [
    2
    * (
        "hello and welcome back to the shed today this old saw will not start "
        "and it has been sitting in the barn all winter long "
    ),
    2
    * (
        "okay tools you need a wrench a socket set a pair of pliers a wire "
        "brush a screwdriver and a torque wrench and some rags "
    ),
    2
    * (
        "okay so first remove the air filter cover and lift out the air filter "
        "and wipe the air filter housing the air filter is dirty "
    ),
    2
    * (
        "now the spark plug pull the spark plug lead and unscrew the spark "
        "plug and brush the spark plug threads the spark plug is black "
    ),
    2
    * (
        "right the carburetor disconnect the fuel line from the carburetor and "
        "remove the carburetor and clean the carburetor jets well "
    ),
    2
    * (
        "all right so that's it thanks for watching and see you next time when "
        "we look at the other saw that is in the barn over there "
    ),
]


def test_first_at_nought_and_every_title_once() -> None:
    chapters = procedure_of(" | ".join(PARTS)).chapters
    assert chapters[0].start == 0.0
    assert len({chapter.title for chapter in chapters}) == len(chapters)
    assert all(0 < len(chapter.title) <= 60 for chapter in chapters)
    assert 3 <= len(chapters) <= 8
    gaps = [b.start - a.start for a, b in pairwise(chapters)]
    assert min(gaps) >= 10


def test_titles_tell_what_is_done() -> None:
    titles = [chapter.title for chapter in procedure_of(" | ".join(PARTS)).chapters]
    assert "Tools and parts" in titles
    assert any("air filter" in title or "spark plug" in title or "carburetor" in title for title in titles)


def test_every_step_has_a_chapter_that_holds_it() -> None:
    procedure = procedure_of(" | ".join(PARTS))
    for step in procedure.steps:
        assert procedure.chapters[step.chapter].start <= step.start
        assert step.chapter + 1 == len(procedure.chapters) or step.start < procedure.chapters[step.chapter + 1].start


@pytest.mark.parametrize("fmt", ["SubRip", "stamped text", "bracketed text"])
def test_captions_without_pauses_are_divided_too(fmt: str) -> None:
    assert len(procedure_of(" ".join(PARTS), fmt=fmt).chapters) >= 3


WORDS = st.sampled_from(
    [
        "remove",
        "the",
        "bolt",
        "and",
        "then",
        "you",
        "pull",
        "it",
        "off",
        "so",
        "okay",
        "i",
        "we",
        "tighten",
        "these",
        ".",
        ",",
        "|",
        "to",
        "25",
        "with",
        "a",
        "new",
        "washer",
        "like",
        "don't",
        "forget",
        "hose",
        "under",
    ]
)


@settings(max_examples=40, deadline=None)
@given(st.lists(WORDS, max_size=120))
def test_any_talk_gives_a_whole_procedure(words: list[str]) -> None:
    procedure = procedure_of(" ".join(words))
    starts = [chapter.start for chapter in procedure.chapters]
    assert starts == sorted(starts)
    for step in procedure.steps:
        assert step.end >= step.start
        assert 0 <= step.chapter < len(procedure.chapters)
        assert step.text.endswith(".")
