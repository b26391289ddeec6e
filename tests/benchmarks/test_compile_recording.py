"""Annotated recordings: what stands in the repository is what the compiler makes of their scripts."""

import json
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "benchmarks"))

from compile_recording import FORMS, ScriptError, compile_script  # noqa: E402
from witnessmark.transcript.reader import parse_transcript  # noqa: E402

SHARED = ROOT.parent / "shared/recordings"
RECORDINGS = sorted(
    path.parent
    for folder in (ROOT / "sample_projects", ROOT / "benchmarks/recordings", SHARED)
    for path in folder.glob("*/script.txt")
)


@pytest.mark.parametrize("recording", RECORDINGS, ids=lambda path: path.name)
def test_a_recording_is_what_its_script_compiles_to(recording: Path) -> None:
    name, captions, gold = compile_script((recording / "script.txt").read_text(encoding="utf-8"))
    assert (recording / name).read_bytes() == captions.encode()
    assert json.loads((recording / "gold.json").read_text(encoding="utf-8")) == gold


@pytest.mark.parametrize("form", FORMS)
def test_every_form_is_read_back_word_for_word(form: str) -> None:
    said = " ".join(f"word{n} with a few others" for n in range(60))
    _, captions, gold = compile_script(f"# form: {form}\n{said}\n(pause 4)\nand the end\n")
    words = parse_transcript(captions.encode(), "captions").words
    assert " ".join(word.text for word in words) == f"{said} and the end"
    assert gold["words"] == len(words)


def test_marks_become_facts_at_the_time_of_their_words() -> None:
    script = """
    # form: vtt
    # wpm: 120
    == The plug
    > Tighten the plug.
    the [[fastener drain plug | plug]] gets [[torque 35 N·m @drain plug; slip digits should 25 N·m | thirty five newton metres]]
    (pause 2)
    fill it with [[value grade DOT4 @brake fluid | dot four]] and a [[size 14 mm | fourteen]] on the [[fastener drain plug | plug]]
    """
    _, _, gold = compile_script(script)
    assert gold["chapters"] == [{"t": 0.4, "topic": "The plug"}]
    assert gold["steps"] == [{"t": 0.4, "text": "Tighten the plug."}]
    (torque,) = gold["torques"]
    # At 120 words a minute: "the", "plug", "gets" last 0.5 s times 0.78, 0.89 and 0.89 after the 0.4 s of silence.
    assert torque == {
        "t": 1.68, "end": pytest.approx(1.68 + 0.5 * (4 * 0.45 + 0.11 * 22), abs=0.011), "said": "thirty five newton metres",
        "value": 35.0, "unit": "N·m", "item": "drain plug",
    }  # fmt: skip
    (slip,) = gold["slips"]
    assert (slip["t"], slip["kind"], slip["should"]) == (torque["t"], "digits", "25 N·m")
    assert [(value["property"], value["value"], value["unit"]) for value in gold["values"]] == [("grade", "DOT4", None)]
    assert [fact["t"] for fact in gold["fasteners"]] == [0.79]


@pytest.mark.parametrize(
    "wrong", ["[[torqe 3 N·m | three]]", "[[part plug | ]]", "[[value gap | one]]", "# form: tape"]
)
def test_a_script_that_breaks_the_markup_is_refused(wrong: str) -> None:
    with pytest.raises(ScriptError, match=r"mark|form"):
        compile_script(f"{wrong}\n")
