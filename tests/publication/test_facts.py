import json
from pathlib import Path

import jsonschema
import pytest

from witnessmark.data import read_text
from witnessmark.examination import examine
from witnessmark.publication.facts import facts_json, facts_of, facts_schema
from witnessmark.publication.manuscript import prepare

SAMPLES = sorted(path.parent for path in (Path(__file__).parents[2] / "sample_projects").glob("*/repair.toml"))


def test_the_shipped_schema_is_that_of_the_models():
    assert read_text("facts.schema.json") == facts_schema()


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name)
def test_facts_of_every_sample_fit_the_schema(sample: Path):
    facts = json.loads(facts_json(prepare(examine(sample))))
    jsonschema.Draft202012Validator(json.loads(facts_schema())).validate(facts)
    assert facts["mentions"] and facts["tools"]


def test_a_value_is_told_as_said_and_in_si(manuscript):
    facts = facts_of(manuscript())
    torque = next(mention for mention in facts.mentions if mention.item == "drain plug" and mention.kind == "torque")
    assert (torque.value, torque.unit, torque.low, torque.high) == (50, "N·m", 50, 50)
    assert torque.si is not None and (torque.si.value, torque.si.unit) == (50.0, "N·m")
    assert torque.spec is not None
    assert (torque.spec.file, torque.spec.row, torque.spec.printed) == ("specs.csv", 3, "30 N·m")


def test_times_are_told_to_the_millisecond(manuscript):
    text = facts_json(manuscript(findings=()))
    times = [each[key] for each in json.loads(text)["mentions"] for key in ("start", "end")]
    assert times and all(time == round(time, 3) for time in times)


def test_the_same_examination_gives_the_same_bytes(manuscript):
    assert facts_json(manuscript()) == facts_json(manuscript())


def test_a_step_names_its_cautions(manuscript):
    from hand_made import caution

    facts = facts_of(manuscript(cautions=(caution("pinch-1", 41.0), caution("lift-1", 41.0, whole_job=True))))
    assert [step.cautions for step in facts.steps] == [(), ("pinch-1",)]
    assert {each.id: each.step for each in facts.cautions} == {"pinch-1": 2, "lift-1": None}
