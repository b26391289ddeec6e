"""Chapters: where they begin and what they are called. All narrations are invented."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from narration import PER_WORD, procedure_of

from witnessmark.procedure.chapter_cues import Place
from witnessmark.procedure.chapters import APART, ENOUGH, LAST, SHORTEST, Divisions, choose, usual_length, weights

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


SERVICE = [
    "good evening everybody / this is the pump out of my neighbor's boat and it hums and it does not lift any water / "
    "he found it that way after the winter and he paid nothing for it / and he wants it back by saturday they say",
    "okay tools / you need a socket set and a screwdriver / a torque wrench and a pair of pliers / "
    "and then some grease and a wire brush and some rags / and a bucket for what is in it still",
    "right first the suction hose / undo the hose clamp and pull the suction hose off / "
    "and the suction hose is stiff so twist it / and put a rag into the suction hose and leave it there / lovely",
    "now the impeller / remove the impeller cover and pull the impeller out / "
    "the impeller has lost two blades you see / and you measure the impeller across / it is worn and it goes in the bin",
    "new gasket on the motor / clean the motor flange and fit the gasket dry / "
    "and you tighten the motor bolts in a cross / and the gasket must not stick out of the flange / good",
    "okay so that's it / thanks for watching and if you have one of these tell me / "
    "next time we look at the bilge switch / and we see you then and take care of yourself",
]


def begun(parts: list[str]) -> list[float]:
    """Seconds at which each part of a narration begins, joined by short pauses."""
    said = [sum(0.5 if word == "/" else PER_WORD for word in f"{part} /".split()) for part in parts]
    return [sum(said[:n]) for n in range(len(said))]


def test_a_chapter_begins_where_something_is_announced() -> None:
    chapters = procedure_of(" / ".join(SERVICE)).chapters
    starts = [chapter.start for chapter in chapters]
    for true in begun(SERVICE)[2:5]:
        assert any(abs(start - true) <= 2.5 for start in starts), (true, starts)
    assert 4 <= len(chapters) <= 7


def test_titles_are_imperative_and_name_what_is_worked_on() -> None:
    titles = [chapter.title for chapter in procedure_of(" / ".join(SERVICE)).chapters]
    assert titles[0].startswith("Introduction")
    assert "Tools and parts" in titles or titles[0] == "Introduction and tools"
    assert any(title in ("Remove the impeller", "Remove the impeller and impeller cover") for title in titles)
    assert any("gasket" in title and title.startswith("Fit") for title in titles)
    assert titles[-1] in ("Wrap-up", "Recap and wrap-up")
    assert not any("screwdriver" in title or "wrench" in title or "neighbor" in title for title in titles)


def test_a_written_name_stands_in_a_title() -> None:
    ring = (
        "right now the o ring / pull the o ring out and clean the seat of the o ring / "
        "fit the new o ring and grease the o ring / and the o ring must not be twisted / it lies flat all round / lovely"
    )
    titles = [chapter.title for chapter in procedure_of(" / ".join([*SERVICE[:2], ring, *SERVICE[3:]])).chapters]
    assert "Replace the O-ring" in titles


def test_a_longer_recording_has_more_and_longer_chapters() -> None:
    assert usual_length(120) < usual_length(480) < usual_length(1800)
    assert 120 / usual_length(120) < 480 / usual_length(480) < 1800 / usual_length(1800)
    assert usual_length(480) == pytest.approx(43.8, abs=0.1)


def places(count: int, every: float, announced: set[int]) -> list[Place]:
    """Places evenly apart, some of them announced by an opener and a new subject."""
    cues = {"parted": 0.7, "opener": 1.0, "subject": 1.0, "closing": 1.0}
    return [Place(n, n * every, cues if n in announced else {"continues": 1.0}) for n in range(count)]


def test_chances_gather_where_the_cues_stand() -> None:
    chances = Divisions(places(40, 5.0, {9, 20, 31}), 200.0, weights()).chances()
    assert chances[0] == 0.0
    assert all(chances[n] > 0.9 for n in (9, 20, 31))
    assert sum(chances) == pytest.approx(3, abs=0.5)


def test_chances_are_those_of_all_divisions_counted_one_by_one() -> None:
    divisions = Divisions(places(7, 9.0, {2, 5}), 63.0, weights())
    total, begins = 0.0, [0.0] * 7
    for chosen in range(2**6):
        marks = [0, *(n + 1 for n in range(6) if chosen >> n & 1)]
        logs = sum(divisions.mark(n) for n in marks[1:])
        logs += sum(divisions.length(a, b) for a, b in pairwise([*marks, 7]))
        total += 2.718281828459045**logs
        for n in marks[1:]:
            begins[n] += 2.718281828459045**logs
    assert divisions.chances() == pytest.approx([begun / total for begun in begins])


@settings(deadline=None)
@given(st.lists(st.tuples(st.floats(0.5, 30), st.floats(0, 1)), max_size=60), st.floats(0.1, 60))
def test_marks_keep_the_rules_of_upload_pages(steps: list[tuple[float, float]], rest: float) -> None:
    times, chances = [0.0], [0.0]
    for step, chance in steps:
        times.append(times[-1] + step)
        chances.append(chance)
    end = times[-1] + rest
    chosen = choose(times, end, chances)
    assert chosen[0] == 0
    marks = [times[n] for n in chosen]
    assert all(b - a >= SHORTEST for a, b in pairwise(marks))
    assert all(b - a >= APART * usual_length(end) for a, b in pairwise(marks[1:]))
    assert len(marks) == 1 or end - marks[-1] >= LAST


def test_nothing_is_marked_where_nothing_speaks_for_it() -> None:
    assert choose([0.0, 30.0, 60.0], 90.0, [0.0, 0.1, 0.1]) == [0]
    assert choose([0.0, 30.0, 60.0], 90.0, [0.0, ENOUGH, 0.1]) == [0, 1]


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
    assert not starts or starts[0] == 0.0
    titles = [chapter.title for chapter in procedure.chapters]
    assert len(set(titles)) == len(titles)
    assert all(0 < len(title) <= 60 for title in titles)
    for step in procedure.steps:
        assert step.end >= step.start
        assert 0 <= step.chapter < len(procedure.chapters)
        assert step.text.endswith(".")


def test_a_title_goes_with_the_stage_of_its_chapter() -> None:
    apart = (
        "okay so first remove the air filter cover and undo the throttle cable and remove the carburetor bolts "
        "then the carburetor fit the carburetor on the bench and undo the fuel line and remove the gasket "
        "fit the carburetor in the vice and remove the float bowl now the float bowl is stuck "
    )
    together = PARTS[4].replace("disconnect", "connect").replace("remove", "fit")
    titles = [c.title for c in procedure_of(" | ".join([*PARTS[:2], apart, *PARTS[3:4], together, PARTS[5]])).chapters]
    assert titles[2].startswith(("Remove", "Undo")), titles


def test_tires_are_inflated_in_a_title() -> None:
    tires = (
        2 * "right the front tires set the front tires and check the front tires and then adjust the rear tires too "
    )
    titles = [chapter.title for chapter in procedure_of(" | ".join([*PARTS[:4], tires, *PARTS[4:]])).chapters]
    assert any(title.startswith("Inflate the") for title in titles), titles
