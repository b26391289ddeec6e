"""Misheard words: what the captions show above what the speaker said, over many trades; and silence on right text."""

import csv
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.language.misheard import Misheard, Term, find_misheard
from witnessmark.language.vocabulary import terms

HERE = Path(__file__).parent
TRADE = [
    *(Term(name, "tool") for name in ("torque wrench", "crank puller", "jack stand", "wheel chock", "hex key")),
    *(Term(name, "part") for name in ("brake pad", "impeller", "o ring", "kick plate", "wiring loom", "trailing arm")),
    *(Term(name, "part") for name in ("front derailleur", "bottom bracket shell", "drain pump", "sump hose", "pedal")),
    *(Term(name, "fastener") for name in ("lug nut", "rod nut", "chain ring bolt", "worm drive clamp", "set screw")),
    *(Term(name, "supply") for name in ("penetrating oil", "anti seize", "grease", "thread lock", "brake cleaner")),
]


def tokens(text: str) -> list[str]:
    return re.findall(r"'[a-z]+|[a-z]+(?=n't)|n't|[a-z0-9.]+", text.lower())


def found_in(text: str, *own: str) -> list[tuple[str, str]]:
    found = find_misheard(tokens(text), [*TRADE, *(Term(name, "item", 1.0) for name in own)])
    return [(f.heard, f.meant) for f in found]


@pytest.mark.parametrize(
    ("said", "found"),
    [
        # beside a right word
        ("check the break pads", ("break pads", "brake pads")),
        ("get the talk wrench out", ("talk wrench", "torque wrench")),
        ("two of them on jack stance", ("jack stance", "jack stands")),
        ("and the wheel chalks go in", ("wheel chalks", "wheel chocks")),
        ("crack the lug knots loose", ("lug knots", "lug nuts")),
        ("pull the kick played off", ("kick played", "kick plate")),
        ("five chain ring boats here", ("chain ring boats", "chain ring bolts")),
        ("the front the railer wants to come up", ("front the railer", "front derailleur")),
        ("a squirt of pen a trading oil", ("pen a trading oil", "penetrating oil")),
        ("that one 's the some hose from the tub", ("some hose", "sump hose")),
        # several words for one, and one for several
        ("the in pillar just flops round", ("in pillar", "impeller")),
        ("a bit of auntie sees on it", ("auntie sees", "anti seize")),
        ("there 's a oaring on the snout", ("oaring", "o ring")),
    ],
)
def test_garbles_are_found(said: str, found: tuple[str, str]) -> None:
    assert found_in(said) == [found]


@pytest.mark.parametrize(
    ("said", "own", "found"),
    [
        ("both petals are loose", "pedals", ("petals", "pedals")),
        ("wind the cubs out of the frame", "bottom bracket cups", ("cubs", "cups")),
        ("the drained pump is at the front", "drain pump", ("drained pump", "drain pump")),
        ("scrub the new rod not it 's the nylon kind", "rod nut", ("rod not", "rod nut")),
        ("the crank and the chain stay", "chainstay clearance", ("chain stay", "chainstay")),
    ],
)
def test_what_the_table_names_needs_less_proof(said: str, own: str, found: tuple[str, str]) -> None:
    assert found_in(said, own) == [found]


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("a torch wrench", "torque wrench"),
        ("bust them log nuts", "lug nuts"),
        ("the lock watcher", "lock washer"),
        ("that 's of will cylinder juice", "wheel cylinder"),
        ("so feel a gauges next", "feeler gauges"),
        ("a dab of see lent here", "sealant"),
    ],
)
def test_a_well_known_name_is_company_enough_for_an_ordinary_word(said: str, found: str) -> None:
    names = (
        "torque wrench",
        "click torque wrench",
        "lug nut wrench",
        "star lock washer",
        "lock washer",
        "lock washer tab",
    )
    names += ("brake wheel cylinder", "wheel cylinder bolt", "feeler gauge", "feeler gauge set", "sealant")
    names += ("torch",)
    assert [f.meant for f in find_misheard(tokens(said), [*TRADE, *(Term(name, "part") for name in names)])] == [found]


@pytest.mark.parametrize(
    "said",
    [
        "a dab of grease and a puddle under it",
        "hand me the torch and the wrench",
        "put your chin over the chain",
        "they 're gapped and the parts are laid out",
        "bottoms up and the bottles down",
        "i was gettin the guide pin",
        "the mic says four and then it mixes",
        "the stem is bolted with six",
    ],
)
def test_ordinary_words_are_no_trade_words(said: str) -> None:
    names = (
        "tab",
        "pedal",
        "torque wrench",
        "chain",
        "bottle",
        "guide pin",
        "mix",
        "stem bolt",
        "gap",
        "gap tool",
        "lid",
    )
    assert find_misheard(tokens(said), [*TRADE, *(Term(name, "part") for name in names)]) == ()


@pytest.mark.parametrize(
    "said",
    [
        "break it loose and take the brake pads out",
        "take a break and then check the brake pads",
        "both pedals and the left pedal",
        "the cups and one cup",
        "wait until it stops and talk to the wheel",
        "it is not the nut it is the bolt",
        "paul and george and william hold the wrench",
        "25 newton metres and 25 newton meters",
        "",
    ],
)
def test_plain_talk_is_left_alone(said: str) -> None:
    assert found_in(said, "pedals", "bottom bracket cups", "rod nut") == []


def test_what_no_table_names_needs_more() -> None:
    assert found_in("wind the cubs out of the frame") == []
    assert found_in("the drained pump is at the front") == []


def test_a_run_of_letters_without_end_is_no_word() -> None:
    assert found_in("x" * 100_000 + " brake pads") == []


def test_the_recordings_own_spelling_wins() -> None:
    words = tokens("the chain stay is bent")
    general = Term("chain stay", "part")
    assert find_misheard(words, [general]) == ()
    assert [f.meant for f in find_misheard(words, [general, Term("chainstay", "item", 1.0)])] == ["chainstay"]


def test_a_finding_says_where_what_and_why() -> None:
    (found,) = find_misheard(tokens("get the talk wrench out"), TRADE)
    assert (found.start, found.end, found.kind) == (2, 4, "tool")
    assert 0 < found.cost < 0.1
    assert found.why == '"talk" sounds like "torque", and "torque wrench" is a name of the trade.'


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.sampled_from([*tokens("the in pillar break pads talk wrench not oaring petals 25 auntie sees a"), "é", "."])
    )
)
def test_findings_lie_in_the_text_in_order_and_apart(words: list[str]) -> None:
    found = find_misheard(words, TRADE)
    assert find_misheard(words, TRADE) == found
    assert all(f.heard == " ".join(words[f.start : f.end]) != f.meant for f in found)
    assert all(a.end <= b.start for a, b in pairwise(found))


# ---- every trade --------------------------------------------------------------------------------


@dataclass
class Trade:
    """Sentences that stand for one recording, with the places where something is to be found."""

    name: str
    terms: list[Term]
    words: list[str] = field(default_factory=list)
    wanted: list[tuple[int, int, str]] = field(default_factory=list)


def trades(file: str = "misheard_said_found.txt") -> list[Trade]:
    read: list[Trade] = []
    for line in (HERE / file).read_text(encoding="utf-8").splitlines():
        kind, _, rest = line.partition(" ")
        if kind == "==":
            name, *items = (part.strip() for part in rest.split(";"))
            read.append(Trade(name, [Term(" ".join(tokens(item)), "item", 1.0) for item in items]))
        elif kind == "said":
            first = len(read[-1].words)
            read[-1].words += [*tokens(rest), "."]
        elif kind == "found" and rest.strip() != "nothing":
            for pair in rest.split(","):
                heard, meant = (part.strip() for part in pair.split(">"))
                run, words = tokens(heard), read[-1].words
                start = next(at for at in range(first, len(words)) if words[at : at + len(run)] == run)
                read[-1].wanted.append((start, start + len(run), meant))
    return read


def offers(found: Misheard, start: int, end: int, meant: str) -> bool:
    """Whether a finding on the place offers the words meant, number and spaces aside."""
    plain = ["".join(word.rstrip("s") for word in text.split()) for text in (meant, found.meant)]
    return found.start < end and start < found.end and (plain[0] in plain[1] or plain[1] in plain[0])


def vocabulary() -> list[Term]:
    """What the sentences' speakers may name beyond their tables: every name that the file says was meant."""
    names = {meant for trade in trades() for _, _, meant in trade.wanted}
    return [Term(name, "part") for name in sorted(names)]


def counted(those: Iterable[Trade], general: Sequence[Term]) -> tuple[int, int, int, int]:
    """Mishearings found with what was meant, mishearings there are, offers on one of them, offers made."""
    hit = wanted = offered = right = 0
    for trade in those:
        found = find_misheard(trade.words, [*general, *trade.terms])
        hit += sum(any(offers(f, *place) for f in found) for place in trade.wanted)
        right += sum(any(f.start < end and start < f.end for start, end, _ in trade.wanted) for f in found)
        wanted, offered = wanted + len(trade.wanted), offered + len(found)
    return hit, wanted, right, offered


def test_mishearings_of_every_trade() -> None:
    hit, wanted, right, offered = counted(trades(), vocabulary())
    assert wanted >= 120
    assert hit / wanted >= 0.75
    assert right / offered >= 0.9


def test_silence_on_plain_talk_of_every_trade() -> None:
    general = vocabulary()
    for part in (HERE / "plain_talk.txt").read_text(encoding="utf-8").split("== ")[1:]:
        head, _, body = part.partition("\n")
        own = [Term(" ".join(tokens(item)), "item", 1.0) for item in head.split(";")[1:]]
        assert find_misheard(tokens(body), [*general, *own]) == (), head


# ---- held out: written before the finder was changed, with the whole vocabulary -----------------------------------


def every_name() -> list[Term]:
    return [Term(form, term.kind) for term in terms() for form in (*term.forms, *term.short)]


def test_held_out_trades_and_their_traps() -> None:
    hit, wanted, right, offered = counted(trades("misheard_held_out.txt"), every_name())
    assert wanted >= 30
    assert hit / wanted >= 0.6
    assert right / offered >= 0.95


def narration(folder: Path) -> Trade:
    """An annotated narration in the form of benchmarks/README.md, of which only [[heard ...]] is used."""
    with (folder / "specs.csv").open(encoding="utf-8", newline="") as lines:
        names = [
            name for row in csv.DictReader(lines) for name in (row["item"], *row["also_called"].split(";")) if name
        ]
    read = Trade(folder.name, [Term(" ".join(tokens(name)), "item", 1.0) for name in names])
    text = "\n".join(line for line in (folder / "script.txt").read_text("utf-8").splitlines() if line[:1] != "#")
    for part in re.split(r"(\[\[.*?\]\])", text):
        mark = re.fullmatch(r"\[\[heard (.*?) \| (.*?)\]\]", part)
        first = len(read.words)
        read.words += tokens(mark[2] if mark else part)
        if mark:
            read.wanted.append((first, len(read.words), mark[1]))
    return read


@pytest.mark.parametrize("name", ["cistern_and_tap", "tiller_gearbox"])
def test_narrations_of_other_trades(name: str) -> None:
    trade = narration(HERE / "narrations" / name)
    found = find_misheard(trade.words, [*every_name(), *trade.terms])
    right = [f for f in found if any(f.start < end and start < f.end for start, end, _ in trade.wanted)]
    assert len(trade.words) > 1200 and len(trade.wanted) >= 15
    assert sum(any(offers(f, *place) for f in found) for place in trade.wanted) >= len(trade.wanted) * 0.4
    assert len(right) >= 0.85 * len(found)
