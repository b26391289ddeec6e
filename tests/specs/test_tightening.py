"""The torque-tension relation, the limits drawn from it, and the other readings of a number."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.specs.heads import threads_of
from witnessmark.specs.threads import all_threads, grades, thread
from witnessmark.specs.tightening import (
    in_newton_metres,
    least_torque,
    mean_bearing_diameter,
    most_torque,
    other_unit,
    preload_at,
    short_torque,
    torque_factor,
    torque_for_preload,
    usual_range,
    yield_torque,
)

FRICTION = st.floats(0.05, 0.35)
A_THREAD = st.sampled_from(all_threads())


def uses_of(said: str):  # type: ignore[no-untyped-def]
    system, size, *drive = said.split(maxsplit=2)
    return threads_of(system, Decimal(size), drive[0] if drive else None)  # type: ignore[arg-type]


@given(A_THREAD, FRICTION, st.floats(1, 1e6))
def test_short_and_full_form_agree_through_k(of, friction, preload):  # type: ignore[no-untyped-def]
    full = torque_for_preload(of, preload, friction, friction)
    assert short_torque(torque_factor(of, friction), of.diameter, preload) == pytest.approx(full)


@given(A_THREAD, FRICTION, FRICTION)
def test_more_friction_is_more_torque_for_less_preload(of, one, other):  # type: ignore[no-untyped-def]
    low, high = sorted((one, other))
    assert torque_for_preload(of, 1000, low, low) <= torque_for_preload(of, 1000, high, high)
    assert preload_at(of, 640, low) >= preload_at(of, 640, high)


@given(A_THREAD)
def test_without_friction_the_torque_only_lifts_the_load(of):  # type: ignore[no-untyped-def]
    # One turn of work is preload times pitch: 2π T = F P, the energy balance of a screw.
    assert torque_for_preload(of, 1000, 0, 0) * 1000 * 2 * 3.141592653589793 == pytest.approx(1000 * of.pitch)


@given(A_THREAD, FRICTION)
def test_a_stronger_grade_takes_more(of, friction):  # type: ignore[no-untyped-def]
    if of.system == "metric":
        torques = [yield_torque(of, grade, friction) for grade in ("4.6", "5.8", "8.8", "10.9", "12.9")]
        assert torques == sorted(torques)


def test_tension_and_torsion_together_leave_less_preload_than_tension_alone() -> None:
    of = thread("M10")
    assert preload_at(of, 640, 0.12) < 640 * of.stress_area


def test_a_thread_without_a_tabulated_bearing_face_takes_the_common_ratio() -> None:
    assert mean_bearing_diameter(thread("3/8-16")) == pytest.approx(1.25 * 9.525)


# Ordinary torques of the trade (common practice): a limit that flagged one of them would be wrong.
RIGHT_VALUES = """
mm 7 hex head       3 N·m      hose clamp
mm 8 hex head       12 N·m     small flange M6 bolt
mm 10 hex head      10 N·m     M6 cover bolt
mm 10 hex head      30 N·m     M8 bolt with a small flange
mm 10 hex head      8 N·m      trim bolt
mm 12 hex head      25 N·m     M8 bolt
mm 12 hex head      35 N·m     M8 10.9 bolt
mm 13 hex head      25 N·m     M8 bolt
mm 13 hex head      65 N·m     M10 small flange bolt
mm 14 hex head      65 N·m     caliper bracket bolt
mm 15 hex head      110 N·m    M12 flange bolt
mm 16 hex head      120 N·m    M12 small flange bolt
mm 17 hex head      127 N·m    trailing arm bolt
mm 17 hex head      140 N·m    wheel bolt M14
mm 18 hex head      180 N·m    suspension bolt M14
mm 19 hex head      110 N·m    wheel nut
mm 19 hex head      245 N·m    crankshaft pulley bolt
mm 21 hex head      190 N·m    wheel nut of a van
mm 22 hex head      200 N·m    wheel nut
mm 30 hex head      300 N·m    axle nut
mm 24 hex head      25 N·m     oil filter cap
mm 32 hex head      65 N·m     bottom bracket cup
mm 33 hex head      600 N·m    wheel nut of a lorry
mm 36 hex head      400 N·m    axle nut
mm 12 12-point head 112 N·m    drive shaft flange bolt
mm 3 key            2 N·m      cable guide screw
mm 4 key            6 N·m      stem bolt
mm 5 key            14 N·m     crank pinch bolt
mm 6 key            40 N·m     pedal axle
mm 7 key            35 N·m     caliper guide pin
mm 8 key            54 N·m     crank bolt
mm 10 key           50 N·m     crank bolt
in 0.4375 hex head  10 lbf·ft  1/4 bolt
in 0.5 hex head     25 lbf·ft  5/16 grade 8 bolt
in 0.5625 hex head  45 lbf·ft  3/8 grade 8 bolt
in 0.625 hex head   70 lbf·ft  7/16 grade 8 bolt
in 0.75 hex head    110 lbf·ft 1/2 grade 8 bolt
in 0.75 hex head    100 lbf·ft wheel nut
in 0.8125 hex head  140 lbf·ft wheel nut of a pickup
in 0.9375 hex head  200 lbf·ft 5/8 bolt
in 1.125 hex head   300 lbf·ft 3/4 grade 8 bolt
in 0.25 hex head    20 lbf·in  sheet metal screw
in 0.3125 hex head  35 lbf·in  hose clamp
T 15                1.2 N·m    screw in plastic
T 20                2.5 N·m    pump screw
T 25                6 N·m      brake disc bolt
T 30                10 N·m     brake disc screw
T 40                25 N·m     M8 screw
T 50                50 N·m     seat belt bolt
E 10                30 N·m     M8 bolt
E 14                70 N·m     M10 bolt
E 18                120 N·m    M12 bolt
PH 2                1.5 N·m    terminal screw
PH 3                10 N·m     brake disc screw
"""


@pytest.mark.parametrize("line", RIGHT_VALUES.strip().splitlines())
def test_no_right_value_is_past_the_limit_or_far_under(line: str) -> None:
    uses, (magnitude, unit) = uses_of(line[:20].strip()), line[20:31].split()
    torque = in_newton_metres(float(magnitude), unit)
    limit, least = most_torque(uses), least_torque(uses)
    assert limit is not None
    assert torque < limit.torque
    assert least is None or torque > least.torque


SAID_FOUND = """
mm 10 hex head    120 lbf·ft   past   lbf·in N·m?
mm 10 hex head    71 lbf·ft    past   lbf·in
mm 10 hex head    10 kgf·m     past   N·m kgf·cm?
mm 12 hex head    25 kgf·m     past   N·m
mm 13 hex head    250 N·m      past   lbf·in kgf·cm
mm 17 hex head    900 lbf·ft   past   lbf·in
mm 19 hex head    76 lbf·in    under  lbf·ft N·m
mm 19 hex head    11 N·m       under  lbf·ft kgf·cm?
mm 13 hex head    25 lbf·in    under  lbf·ft N·m
T 20              25 N·m       past   lbf·in kgf·cm
in 0.5 hex head   156 lbf·ft   past   lbf·in
in 0.5625 hex head 33 lbf·in   under  lbf·ft N·m
"""


@pytest.mark.parametrize("line", SAID_FOUND.strip().splitlines())
def test_a_factor_of_eight_to_twelve_is_seen_and_the_other_unit_named(line: str) -> None:
    fields = line.split()
    at = next(index for index, word in enumerate(fields) if word in ("past", "under"))
    uses = uses_of(" ".join(fields[: at - 2]))
    magnitude, unit, side = float(fields[at - 2]), fields[at - 1], fields[at]
    torque, limit, least, usual = (
        in_newton_metres(magnitude, unit),
        most_torque(uses),
        least_torque(uses),
        usual_range(uses),
    )
    assert limit and least and usual
    assert torque > limit.torque if side == "past" else torque < least.torque
    wanted = [word for word in fields[at + 1 :] if not word.endswith("?")]
    found = [each.unit for each in other_unit(magnitude, unit, usual)]
    assert found[: len(wanted)] == wanted


def test_a_torque_in_the_usual_range_has_no_other_reading() -> None:
    usual = usual_range(uses_of("mm 13 hex head"))
    assert usual
    assert other_unit(25, "N·m", usual) == ()


def test_an_unlisted_head_has_no_limits() -> None:
    assert most_torque(()) is None
    assert least_torque(()) is None
    assert usual_range(()) is None


def test_the_limit_rests_on_the_strongest_class_and_pitch_of_the_largest_thread() -> None:
    limit = most_torque(uses_of("mm 13 hex head"))
    assert limit
    assert (limit.thread.name, limit.grade, limit.friction) == ("M10x1", "12.9", 0.20)
    assert limit.torque > yield_torque(thread("M10"), "12.9", 0.20)


def test_an_inch_key_screw_is_harder_than_a_hexagon_bolt() -> None:
    key, hexagon = most_torque(uses_of("in 0.3125 key")), most_torque(uses_of("in 0.5625 hex head"))
    assert key and hexagon
    assert (key.grade, hexagon.grade) == ("A574", "grade 8")
    assert key.torque > hexagon.torque


def test_every_thread_yields_somewhere_between_its_bounds() -> None:
    for each in all_threads():
        for grade in grades(each):
            assert 0 < yield_torque(each, grade, 0.08) < yield_torque(each, grade, 0.20)


def test_an_unknown_unit_is_refused_with_those_known() -> None:
    with pytest.raises(ValueError, match=r"lbf·ft.*lbf·in"):
        in_newton_metres(1, "furlong")
