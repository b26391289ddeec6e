"""Reading thread designations, and the shape of the thread tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.specs.threads import (
    all_threads,
    fastener_rows,
    grades,
    normal_grade,
    proof_load,
    strength,
    thread,
    threads_of_size,
    yield_load,
)

SAID_FOUND = """
M8                    M8
m8                    M8
M8 by 1.25            M8
M8x1.25               M8
M8x1                  M8x1
M10 × 1.25            M10x1.25
M10*1.25              M10x1.25
M8 x 30               M8
M8x1.25x30            M8
M3x3                  M3
M10x1-6g              M10x1
M10x1.25 left-hand    M10x1.25 LH
M10 x 1 left hand     M10x1 LH
M12x1.5-LH            M12x1.5 LH
3/8-16                3/8-16 UNC
3/8                   3/8-16 UNC
3/8 UNF               3/8-24 UNF
1/2-20 UNF-2A         1/2-20 UNF
1/4"-28               1/4-28 UNF
1/4 in - 20           1/4-20 UNC
#10-24                #10-24 UNC
10-32                 #10-32 UNF
No. 8-32              #8-32 UNC
3/8-16 x 1 1/2        3/8-16 UNC
1-8                   1-8 UNC
"""


@pytest.mark.parametrize("line", SAID_FOUND.strip().splitlines())
def test_designation(line: str) -> None:
    said, found = line[:22].strip(), line[22:].strip()
    read = thread(said)
    assert read.name + (" LH" if read.left_hand else "") == found


@pytest.mark.parametrize(
    ("said", "nearest"),
    [
        ("M8x2", "M8, M8x1, M8x0.75"),
        ("M13", "M12, M12x1.5, M12x1.25"),
        ("3/8-15", "3/8-16 UNC, 3/8-24 UNF"),
        ("#11-24", "#10-24 UNC"),
        ("M0", "M1.6"),
        ("1/4-0", "1/4-20 UNC"),
    ],
)
def test_an_unknown_thread_names_the_nearest(said: str, nearest: str) -> None:
    with pytest.raises(ValueError, match="unknown thread") as refusal:
        thread(said)
    assert nearest in str(refusal.value)


@pytest.mark.parametrize("said", ["", "bolt", "M", "1/0-20", "8", "-", "left-hand", "M8x", "x1.25"])
def test_what_is_no_designation_says_how_to_write_one(said: str) -> None:
    with pytest.raises(ValueError, match="write it like M8"):
        thread(said)


@given(st.text(alphabet='M#x×1234567890./- "LHUNCF', max_size=24))
def test_any_text_is_a_thread_or_a_plain_refusal(text: str) -> None:
    try:
        found = thread(text)
    except ValueError:
        return
    assert found.stress_area > 0


@pytest.mark.parametrize("known", all_threads(), ids=lambda each: each.name)
def test_every_thread_is_read_back_by_its_name(known: object) -> None:
    assert thread(known.name) == known  # type: ignore[attr-defined]


@pytest.mark.parametrize("known", all_threads(), ids=lambda each: each.name)
def test_diameters_are_nested(known: object) -> None:
    assert known.root_diameter < known.minor_diameter < known.pitch_diameter < known.diameter  # type: ignore[attr-defined]


def test_a_finer_pitch_has_the_larger_stress_area() -> None:
    for size in {each.size for each in all_threads()}:
        by_pitch = sorted(threads_of_size(size), key=lambda each: each.pitch)
        areas = [each.stress_area for each in by_pitch]
        assert areas == sorted(areas, reverse=True)


def test_each_size_has_one_coarse_thread_and_it_comes_first() -> None:
    for size in {each.size for each in all_threads()}:
        series = [each.series for each in threads_of_size(size)]
        assert series[0] in ("coarse", "UNC")
        assert sum(each in ("coarse", "UNC") for each in series) == 1


@pytest.mark.parametrize(
    ("said", "found"),
    [("8.8", "8.8"), ("class 10.9", "10.9"), ("grade 8.8", "8.8"), ("property class 12.9", "12.9"),
     ("Grade 5", "grade 5"), ("SAE gr. 8", "grade 8"), ("5", "grade 5"), ("ASTM a574", "A574")],
)  # fmt: skip
def test_ways_to_write_a_grade(said: str, found: str) -> None:
    assert normal_grade(said) == found


def test_8_8_splits_at_16_mm() -> None:
    assert strength("8.8", thread("M16")).yield_stress == 640
    assert strength("8.8", thread("M18")).yield_stress == 660


def test_grade_2_splits_at_three_quarters_and_grade_5_at_one_inch() -> None:
    assert strength("2", thread("3/4-10")).proof == pytest.approx(55 * 6.894757)
    assert strength("2", thread("7/8-9")).proof == pytest.approx(33 * 6.894757)
    assert strength("5", thread("1-8")).proof == pytest.approx(85 * 6.894757)


@pytest.mark.parametrize(("grade", "of"), [("grade 5", "M8"), ("8.8", "3/8-16"), ("9.8", "M20"), ("7.7", "M8")])
def test_a_grade_that_does_not_go_with_a_thread_is_refused_with_those_that_do(grade: str, of: str) -> None:
    with pytest.raises(ValueError, match="known: ") as refusal:
        strength(grade, thread(of))
    assert ", ".join(grades(thread(of))) in str(refusal.value)


def test_proof_lies_below_yield_below_tensile() -> None:
    for each in all_threads():
        for grade in grades(each):
            found = strength(grade, each)
            assert found.proof < found.yield_stress < found.tensile
            assert proof_load(grade, each) < yield_load(grade, each)


@pytest.mark.parametrize(
    "table", ["metric_threads", "inch_threads", "property_classes", "heads", "bearing_faces", "torque_units"]
)
def test_every_row_names_its_source(table: str) -> None:
    rows = fastener_rows(table)
    assert rows
    assert all(row["source"].strip() for row in rows)
    assert len({tuple(row.values()) for row in rows}) == len(rows)
