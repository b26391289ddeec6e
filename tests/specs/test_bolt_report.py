"""The report on one bolt, as it is printed by hand."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.specs.bolt_report import CAUTION, HeadSize, bolt_report, printed


def values(report, section: int = 0):  # type: ignore[no-untyped-def]
    return {row.label: row.value for row in report.sections[section].rows}


def test_a_thread_gives_area_loads_and_torques_at_each_friction() -> None:
    rows = values(bolt_report("M10", "8.8"))
    assert rows["stress area"] == "58 mm²"
    assert rows["proof, yield and tensile strength"] == "580, 640, 800 MPa"
    assert rows["proof load"] == "33.6 kN (7560 lbf)"
    assert rows["friction 0.12: torque at 90 % of yield"] == "48.3 N·m (35.7 lbf·ft)"
    assert [label for label in rows if label.endswith("factor K")] == [
        f"friction {friction}: factor K" for friction in ("0.08", "0.12", "0.14", "0.20")
    ]


def test_every_row_has_a_source_and_the_caution_stands() -> None:
    report = bolt_report("3/8-16")
    assert all(row.source for section in report.sections for row in section.rows)
    assert report.caution == CAUTION
    assert "not specifications" in CAUTION
    assert "workshop manual" in CAUTION


def test_a_left_hand_thread_says_so() -> None:
    assert bolt_report("M10x1.25 left-hand").title == "M10x1.25 left-hand"


def test_a_grade_not_given_is_marked_as_assumed() -> None:
    assert [(each.grade, each.assumed) for each in bolt_report("M8").sections] == [("8.8", True)]
    assert [(each.grade, each.assumed) for each in bolt_report("3/8-16").sections] == [("grade 5", True)]
    assert [(each.grade, each.assumed) for each in bolt_report("M8", "class 10.9").sections] == [("10.9", False)]


def test_a_head_size_gives_a_section_for_each_thread_it_can_mean() -> None:
    report = bolt_report(HeadSize("mm", Decimal(13), "hex head"))
    assert report.title == "13 mm hex head"
    assert [each.thread.name for each in report.sections] == ["M8", "M10"]
    assert ("M10", "EN 1662 small flange") in {(row.label, row.value) for row in report.meanings}


def test_a_grade_speaks_for_its_own_system_where_a_recess_fits_both() -> None:
    report = bolt_report(HeadSize("PH", Decimal(2)), "8.8")
    assert {each.thread.system for each in report.sections} == {"metric"}


SAID_FOUND = [
    ("M8", None, (25, "N·m"), "possible", ""),
    ("M8", None, (120, "lbf·ft"), "past the limit", "120 lbf·in (13.6 N·m)"),
    ("M8", None, (3, "kgf·m"), "possible", ""),
    ("M8", None, (30, "kgf·m"), "past the limit", "30 N·m"),
    ("M6", "4.6", (16, "N·m"), "past this grade", "M6 of class 4.6"),
    ("M12", None, (76, "lbf·in"), "far under", "76 lbf·ft (103 N·m)"),
    ("3/8-16", "grade 5", (35, "lbf·ft"), "possible", ""),
    ("3/8-16", None, (360, "lbf·ft"), "past the limit", "360 lbf·in"),
]


@pytest.mark.parametrize(("bolt", "grade", "said", "verdict", "named"), SAID_FOUND)
def test_a_said_torque_is_judged(bolt, grade, said, verdict, named):  # type: ignore[no-untyped-def]
    found = bolt_report(bolt, grade, said=said).said
    assert found is not None
    assert found.verdict == verdict
    assert named in found.message


def test_possible_never_reads_as_right() -> None:
    found = bolt_report("M8", said=(25, "N·m")).said
    assert found is not None
    assert "does not make it right" in found.message


@pytest.mark.parametrize(
    "bad",
    [
        lambda: bolt_report("M8x2"),
        lambda: bolt_report("M8", "grade 5"),
        lambda: bolt_report(HeadSize("mm", Decimal("9.5"))),
        lambda: bolt_report("M8", frictions=(1.4,)),
        lambda: bolt_report("M8", said=(25, "stone")),
        lambda: bolt_report("M8", said=(0, "N·m")),
        lambda: bolt_report("M8", said=(float("nan"), "N·m")),
        lambda: bolt_report("M8", said=(float("inf"), "N·m")),
    ],
)
def test_what_cannot_be_reported_is_refused(bad):  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match=r"."):
        bad()


@pytest.mark.parametrize(
    ("number", "text"),
    [(36.609, "36.6"), (0.9432, "0.943"), (21234, "21200"), (58.0, "58"), (100, "100"), (0.05, "0.05")],
)
def test_numbers_keep_three_digits(number: float, text: str) -> None:
    assert printed(number) == text


@given(st.floats(1e-4, 1e9))
def test_printed_numbers_are_plain_and_near(number: float) -> None:
    assert "e" not in printed(number).lower()
    assert float(printed(number)) == pytest.approx(number, rel=0.005)
