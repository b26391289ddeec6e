"""The measures of accuracy on facts made up for the purpose: each counts what it says it counts."""

import sys
from pathlib import Path
from typing import Any

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "benchmarks"))

from scoring import LISTS, Recording, alike, paired, score, window_diff

ITEMS = {"drain plug": "oil drain plug", "oil drain plug": "oil drain plug", "fill plug": "fill plug"}


def recording(gold: dict[str, Any] | None = None, facts: dict[str, Any] | None = None) -> Recording:
    told = ("mentions", "findings", "steps", "chapters", *LISTS, "cautions", "owed")
    marked = (
        "chapters",
        "steps",
        "torques",
        "sizes",
        "values",
        *LISTS,
        "slips",
        "fine",
        "heard",
        "hazards",
        "owed",
        "order",
    )
    blank: dict[str, Any] = {name: [] for name in marked}
    return Recording(
        blank | {"duration": 3600.0} | (gold or {}), {name: [] for name in told} | (facts or {}), ITEMS, 2.5, 10.0
    )


def mention(start: float, kind: str, value: object, unit: str | None, item: str | None = None) -> dict[str, Any]:
    return {
        "start": start,
        "kind": kind,
        "value": value,
        "unit": unit,
        "low": None,
        "high": None,
        "item": item,
        "said": str(value),
    }


def torque(t: float, value: float, unit: str, item: str | None) -> dict[str, Any]:
    return {"t": t, "end": t + 1, "said": str(value), "value": value, "unit": unit, "item": item}


def finding(start: float, check: str, severity: str, expected: str | None = None) -> dict[str, Any]:
    return {
        "start": start, "end": start + 1, "check": check, "severity": severity, "settled": None, "said": "", "message": "",
        "expected": expected, "fix": None,
    }  # fmt: skip


def test_a_torque_counts_in_any_unit_and_its_item_by_any_name() -> None:
    gold = {"torques": [torque(10, 35.0, "N·m", "drain plug"), torque(60, 20.0, "N·m", "fill plug")]}
    facts = {
        "mentions": [
            mention(11, "torque", 25.815, "lbf·ft", "oil drain plug"),
            mention(40, "torque", 20, "N·m", "fill plug"),
        ]
    }
    scores = score(recording(gold, facts))
    assert (scores["torque"].found, scores["torque"].expected, scores["torque"].said) == (1, 2, 2)
    assert (scores["torque's item"].found, scores["torque's item"].expected) == (1, 2)


def test_a_torque_given_to_another_item_is_found_but_wrong() -> None:
    gold = {"torques": [torque(10, 35.0, "N·m", "drain plug")]}
    scores = score(recording(gold, {"mentions": [mention(10, "torque", 35, "N·m", "fill plug")]}))
    assert scores["torque"].found == 1
    assert scores["torque's item"].found == 0


def test_a_size_is_one_with_its_system() -> None:
    gold = {
        "sizes": [{"t": 1, "said": "", "value": "5/8", "unit": "in"}, {"t": 9, "said": "", "value": "20", "unit": "T"}]
    }
    facts = {"mentions": [mention(1, "tool_size", 0.625, "in"), mention(9, "tool_size", 20, "mm")]}
    assert score(recording(gold, facts))["tool size"].found == 1


def test_a_slip_is_caught_by_a_finding_on_it_but_not_by_doubt_about_a_word() -> None:
    gold = {"slips": [{"t": t, "end": t + 1, "said": "", "kind": "unit", "should": ""} for t in (10, 50, 90)]}
    facts = {
        "findings": [finding(11, "value", "hold"), finding(50, "value", "query"), finding(90, "misheard", "query")]
    }
    scores = score(recording(gold, facts))
    assert (scores["slips caught"].found, scores["slips held"].found) == (2, 1)
    assert (scores["false holds"].found, scores["false queries"].found) == (0, 0)


def test_a_hold_on_what_is_right_is_false() -> None:
    assert (
        score(recording(facts={"findings": [finding(500, "value", "hold"), finding(900, "owed", "query")]}))[
            "false holds"
        ].found
        == 1
    )


def test_what_stands_in_the_wrong_list_is_missed_there_but_is_no_wrong_thing() -> None:
    gold = {
        "tools": [{"t": 1, "said": "", "name": "torque wrench"}],
        "parts": [{"t": 2, "said": "", "name": "crush washer"}],
    }
    thing = {"name": "crush washers", "size": None, "first": 2.0, "said": ""}
    scores = score(recording(gold, {"tools": [thing]}))
    assert (scores["tools"].found, scores["tools"].precision) == (0, 1.0)
    assert scores["parts"].found == 0


def test_a_misheard_word_must_be_offered_as_what_was_said() -> None:
    gold = {
        "heard": [
            {"t": 5, "end": 6, "said": "a node", "meant": "anode"},
            {"t": 50, "end": 51, "said": "in pillar", "meant": "impeller"},
        ]
    }
    facts = {"findings": [finding(5, "misheard", "note", "anode"), finding(50, "misheard", "note", "pillar")]}
    assert score(recording(gold, facts))["misheard"].found == 1


def test_each_thing_is_paired_once_with_the_nearest() -> None:
    gold, found = [{"t": 10.0}, {"t": 12.0}], [{"start": 11.5}]
    assert paired(gold, found, lambda *_: True, 5) == [(gold[1], found[0])]


@pytest.mark.parametrize(("one", "other", "same"), [
    ("drain plug", "the drain plugs", True), ("torque wrench", "small torque wrench", True), ("brake cleaner", "brake caliper", False),
    ("plug", "", False), ("anti-seize", "anti seize", True),
])  # fmt: skip
def test_names_alike(one: str, other: str, same: bool) -> None:
    assert alike(one, other) is same


def test_window_diff_is_nought_for_the_true_marks_and_grows_with_what_is_wrong() -> None:
    true = [100.0, 200.0, 300.0]
    assert window_diff(true, true, 400) == 0.0
    near, far = window_diff(true, [104.0, 200.0, 300.0], 400), window_diff(true, [140.0, 200.0, 300.0], 400)
    assert 0.0 < near < far <= window_diff(true, [], 400)
