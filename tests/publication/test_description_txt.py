from dataclasses import replace

import pytest
from hand_made import caution, finding, step
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.procedure.model import Chapter, Procedure
from witnessmark.procedure.promises import Owed
from witnessmark.proof.model import Fix
from witnessmark.publication.description_txt import STATEMENT, description_txt
from witnessmark.publication.fitted import Section, fitted
from witnessmark.publication.values import value_specified
from witnessmark.reading.model import Reading
from witnessmark.specs.table import SpecTable


def described(manuscript, limit: int = 5000, links=(), **changes) -> str:
    made = manuscript(**changes)
    project = replace(made.examination.project, description_limit=limit, links=links)
    return description_txt(replace(made, examination=replace(made.examination, project=project)))


def owed(about: str, settled: str | None) -> Owed:
    return Owed("link", 65.0, 66.0, about, about, settled)


def test_all_there_is_to_say_in_its_order(manuscript):
    text = described(manuscript, cautions=(caution("pinch-1", 41.0),), owed=(owed("the jack", None),))
    lines = text.splitlines()
    assert lines[:2] == ["Bracket & ‹plug›", 'Machine: Morvane. The work goes from "bracket" to "drain plug".']
    headings = ["Chapters", "Corrections to this video", "Torques", "Take care", "Tools", "Supplies"]
    assert [line for line in lines if line in headings] == headings
    assert STATEMENT in lines
    assert "0:40 Drain plug" in lines
    assert "- WARNING, pinch: Keep off." in lines
    assert "- socket, 13, 17 mm" in lines
    assert "- a link: the jack (promised at 1:05)" in lines


def test_torques_in_both_units_and_what_the_video_says(manuscript):
    lines = described(manuscript).splitlines()
    assert "- bracket bolts: 25 N·m (18 lbf·ft), tool 13 mm" in lines
    assert "- drain plug: 30 N·m (22 lbf·ft), tool 17 mm; the video says 50 N·m (37 lbf·ft)" in lines


def test_a_torque_that_no_finding_holds_against_the_video_is_the_manuals_alone(manuscript):
    settled = finding(fix=None, settled="not a mistake: another plug")
    for findings in ((), (settled,)):
        assert "- drain plug: 30 N·m (22 lbf·ft), tool 17 mm" in described(manuscript, findings=findings).splitlines()


def test_a_value_of_the_table_is_told_with_its_source_and_a_tool_size_is_no_torque(manuscript):
    row = next(row for row in manuscript().examination.table.rows if row.item == "drain plug")
    value = value_specified(row)
    torque = finding(value=value, mentions=("m1",))
    size = replace(
        torque,
        check="tool-size",
        expected="17 mm",
        fix=Fix(card="Correction: drain plug take 17 mm", card_in=42.0, card_out=44.0),
    )
    decided = replace(
        torque, settled="35 N·m counts", expected="35 N·m", fix=replace(size.fix, card="Correction: drain plug 35 N·m")
    )
    told = {
        torque: "drain plug: the manual says 30 N·m (22 lbf·ft) (Manual p. 9)",
        size: "drain plug take 17 mm",
        decided: "drain plug 35 N·m",
    }
    for each, text in told.items():
        line = f'- At 0:42, {text}; the video says "50 newton metres"'
        assert line in described(manuscript, findings=(each,)).splitlines()


def _without_rows(manuscript) -> Reading:
    reading = manuscript().examination.reading
    return replace(reading, mentions=tuple(replace(each, row=None) for each in reading.mentions))


def test_a_torque_without_a_row_is_marked(manuscript):
    text = described(manuscript, table=SpecTable(()), reading=_without_rows(manuscript))
    assert "- drain plug: 50 N·m (37 lbf·ft); unchecked, as the video says it" in text


def test_a_correction_tells_when_and_what_counts(manuscript):
    (found,) = (each for each in manuscript().examination.findings)
    text = described(manuscript, findings=(replace(found, mentions=("m1",)),))
    assert '- At 0:42, Drain plug: 30 N·m; the video says "50 newton metres"' in text
    assert "Corrections" not in described(manuscript, findings=())
    assert "Corrections" not in described(manuscript, findings=(finding(fix=None, settled="kept as said: new"),))


def test_a_kept_promise_has_its_address(manuscript):
    links = (("jack", "https://jacks.example/a"),)
    text = described(manuscript, links=links, owed=(owed("the jack", "jack"),))
    assert "- the jack: https://jacks.example/a" in text and "owed" not in text


@pytest.mark.parametrize("limit", [500, 600, 700, 900, 1200, 5000])
def test_no_longer_than_the_limit_and_the_statement_always_there(manuscript, limit):
    cautions = tuple(caution(f"pinch-{n}", 41.0) for n in range(9))
    text = described(manuscript, limit, cautions=cautions)
    whole = described(manuscript, 100_000, cautions=cautions)
    assert len(text) <= limit
    assert STATEMENT in text
    own = [line for line in text.splitlines() if "left out here for length" not in line.lower()]
    assert set(own) <= set(whole.splitlines()), "a line was cut"


def test_chapters_corrections_and_torques_outlast_the_rest(manuscript):
    text = described(manuscript, 600, cautions=(caution("pinch-1", 41.0),))
    for kept in ("Chapters", "Corrections to this video", "Torques"):
        assert kept in text
    assert "Left out here for length: " in text and "Parts" not in text


def test_a_title_too_long_goes_whole(manuscript):
    made = manuscript()
    project = replace(made.examination.project, title="x" * 6000, description_limit=500)
    text = description_txt(replace(made, examination=replace(made.examination, project=project)))
    assert len(text) <= 500 and STATEMENT in text and "xx" not in text


def test_a_hostile_title_stays_on_its_line(manuscript):
    steps = (step(1.0, "Fit."), step(30.0, "Fit.", chapter=1), step(50.0, "Fit.", chapter=2))
    chapters = tuple(Chapter(start, f"<script>\n-->{start}") for start in (0.0, 30.0, 50.0))
    text = described(manuscript, procedure=Procedure(steps, chapters, (), ()))
    assert "0:30 ‹script› --›30.0" in text.splitlines() and "<" not in text


sections = st.lists(
    st.tuples(st.lists(st.text("ab", min_size=1, max_size=30), max_size=6), st.integers(0, 9), st.booleans()),
    max_size=6,
)


@given(sections, st.integers(200, 500))
def test_lines_are_kept_whole_in_order_and_counted(made, limit):
    whole = [Section(f"s{i}", f"H{i}", tuple(lines), weight, one) for i, (lines, weight, one) in enumerate(made)]
    text = fitted([*whole, Section("", "", ("always",), None)], limit)
    assert len(text) <= limit and "always" in text.splitlines()
    for block in text.split("\n\n"):
        heading, *lines = block.strip().splitlines()
        section = next((each for each in whole if each.heading == heading), None)
        if section:
            missing = lines.pop() if lines[-1].startswith("(and ") else "(and 0 more"
            assert tuple(lines) == section.lines[: len(lines)]
            assert missing.startswith(f"(and {len(section.lines) - len(lines)} more")
            assert not (section.whole and len(lines) < len(section.lines))
