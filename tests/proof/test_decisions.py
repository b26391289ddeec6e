"""Decisions survive rebuilds, shifted times and small edits; what fits nothing any more is told."""

from pathlib import Path

import pytest
from conftest import write_project

from witnessmark.errors import InputError
from witnessmark.examination import Examination, examine
from witnessmark.proof.decisions import Decision, read_decisions
from witnessmark.proof.model import Finding
from witnessmark.settling import settle

SPECS = "bracket bolts,caliper bracket bolts,torque,22 N·m,13 mm,invented book p. 1"
SAID = """
slide the caliper over the disc and mind the hose on the way
now the bracket bolts get fifty newton meters and a dab of thread lock
wipe the whole lot down with a rag and have a look for leaks
"""


def value_finding(examination: Examination) -> Finding:
    return next(finding for finding in examination.findings if finding.check == "value")


def settled_after(folder: Path, captions: str) -> tuple[list[str | None], tuple[Decision, ...]]:
    examination = examine(write_project(folder, captions, SPECS))
    return [finding.settled for finding in examination.findings if finding.check == "value"], examination.stale


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    """A project whose one value finding is kept as said."""
    write_project(tmp_path, SAID, SPECS)
    settle(tmp_path, value_finding(examine(tmp_path)).id, "keep", "the maker's bulletin of the year after")
    return tmp_path


KEPT = ["kept as said: the maker's bulletin of the year after"]


def test_a_rebuild(kept: Path) -> None:
    assert settled_after(kept, SAID) == (KEPT, ())


def test_all_times_shifted(kept: Path) -> None:
    assert settled_after(kept, "welcome back to the channel\nit is raining again\n" + SAID) == (KEPT, ())


def test_a_corrected_typo_nearby(kept: Path) -> None:
    assert settled_after(kept, SAID.replace("disc", "rotor").replace("a dab of", "some")) == (KEPT, ())


def test_the_value_changed(kept: Path) -> None:
    settled, stale = settled_after(kept, SAID.replace("fifty", "fifty five"))
    assert settled == [None] and [each.said for each in stale] == ["fifty newton meters"]


def test_the_passage_is_gone(kept: Path) -> None:
    settled, stale = settled_after(kept, "nothing here but talk of the weather and the dog")
    assert settled == [] and len(stale) == 1


def test_the_same_words_elsewhere_are_not_settled(kept: Path) -> None:
    moved = "that is the end of it\nand the bracket bolts get fifty newton meters as everybody knows"
    settled, stale = settled_after(kept, moved)
    assert settled == [None] and len(stale) == 1


def test_comments_stay_and_the_later_decision_counts(kept: Path) -> None:
    path = kept / "decisions.toml"
    path.write_text(path.read_text(encoding="utf-8") + "# asked the dealer on Tuesday\n", encoding="utf-8")
    settle(kept, value_finding(examine(kept)).id, "value", value="24 N·m", reason="dealer")
    assert "# asked the dealer on Tuesday" in path.read_text(encoding="utf-8")
    assert settled_after(kept, SAID) == (["24 N·m counts: dealer"], ())


def test_another_value_brings_its_own_correction(tmp_path: Path) -> None:
    write_project(tmp_path, SAID, SPECS)
    settle(tmp_path, value_finding(examine(tmp_path)).id, "value", value="24 N·m")
    fix = value_finding(examine(tmp_path)).fix
    assert fix is not None and fix.caption == "24 N·m" and "24 N·m" in (fix.card or "")


def test_odd_characters_come_back_as_they_were(tmp_path: Path) -> None:
    write_project(tmp_path, SAID, SPECS)
    reason = 'she said "no" \\ twice \x7f'
    settle(tmp_path, value_finding(examine(tmp_path)).id, "no mistake", reason)
    assert read_decisions(tmp_path)[0].reason == " ".join(reason.split())


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("[[decision]]\ncheck = 1\nsaid = 'a'\ndecision = 'keep'", "decision 1 key check"),
        ("[[decision]]\nsaid = 'a'\ndecision = 'keep'", "decision 1 key check"),
        ("[[decision]]\ncheck = 'value'\nsaid = 'a'\ndecision = 'perhaps'", "decision 1 key decision"),
        ("[[decision]]\ncheck = 'value'\nsaid = 'a'\ndecision = 'keep'\nresaon = 'b'", "decision 1 key resaon"),
        ("[[decision]]\ncheck = 'value'\nsaid = 'a'\ndecision = 'value'", "decision 1"),
        ("[[decision]\n", "decisions.toml"),
        ("[settled]\n", "decisions.toml"),
    ],
)
def test_a_file_that_cannot_be_read_says_where(tmp_path: Path, text: str, where: str) -> None:
    (tmp_path / "decisions.toml").write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as why:
        read_decisions(tmp_path)
    assert where in why.value.where


@pytest.mark.parametrize(
    ("finding", "decision", "reason", "value"),
    [
        ("value-0000", "keep", "because", ""),
        (None, "keep", "", ""),
        (None, "perhaps", "because", ""),
        (None, "value", "", ""),
        (None, "value", "", "about right"),
        (None, "keep", "because", "24 N·m"),
    ],
)
def test_a_decision_that_does_not_go(
    tmp_path: Path, finding: str | None, decision: str, reason: str, value: str
) -> None:
    write_project(tmp_path, SAID, SPECS)
    with pytest.raises(InputError):
        settle(tmp_path, finding or value_finding(examine(tmp_path)).id, decision, reason, value)
    assert not (tmp_path / "decisions.toml").exists()


def test_a_second_decision_names_the_one_it_takes_the_place_of(kept: Path) -> None:
    found = value_finding(examine(kept)).id
    settled = settle(kept, found, "value", value="24 N·m")
    assert settled.counts == "24 N·m counts" and settled.earlier == (1, KEPT[0])
    last = settle(kept, found, "manual", "read again")
    assert last.earlier == (2, "24 N·m counts")
    assert last.counts == "the manual's value counts, specs.csv row 2: read again"


def test_a_first_decision_takes_no_ones_place(tmp_path: Path) -> None:
    write_project(tmp_path, SAID, SPECS)
    settled = settle(tmp_path, value_finding(examine(tmp_path)).id, "manual")
    assert (settled.counts, settled.earlier) == (
        "the manual's value counts, 22 N·m (16 lbf·ft) in specs.csv row 2",
        None,
    )


def test_an_unknown_key_names_a_near_one_and_no_far_one(tmp_path: Path) -> None:
    for key, near in {"resaon": "the nearest is 'reason'", "xyz": None}.items():
        (tmp_path / "decisions.toml").write_text(f"[[decision]]\n{key} = 'a'", encoding="utf-8")
        with pytest.raises(InputError) as why:
            read_decisions(tmp_path)
        assert "known are check, said, decision" in str(why.value)
        assert near in str(why.value) if near else "nearest" not in str(why.value)
