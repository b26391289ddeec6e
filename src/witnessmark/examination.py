"""A whole project examined: every stage run once, in order, its result kept for the writers."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from witnessmark.language.heard import corrector
from witnessmark.language.speech import read_speech
from witnessmark.procedure.cautions import find_cautions
from witnessmark.procedure.find import find_procedure
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.promises import find_promises
from witnessmark.project import read_project
from witnessmark.proof.checks import run_checks
from witnessmark.proof.decisions import Decision, apply_decisions, read_decisions
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.reading.model import Mention
from witnessmark.reading.read import read
from witnessmark.reading.shown import shown_in_guide
from witnessmark.specs.table import read_tables
from witnessmark.transcript import read_transcript


@dataclass(frozen=True)
class Examination(Evidence):
    """Everything that is known of one recording. stale: decisions that fit no finding any more."""

    findings: tuple[Finding, ...]
    stale: tuple[Decision, ...] = ()


def examine(folder: Path) -> Examination:
    """Read and check the project in a folder. Raises InputError where its files are wrong."""
    project = read_project(folder)
    table = read_tables(project.specs)
    transcript = read_transcript(project.captions)
    speech = read_speech(transcript, corrector(project, table))
    reading = read(speech, table, project.title)
    procedure = find_procedure(speech, reading.sightings, values_of(reading.mentions))
    cautions = find_cautions(speech, reading.sightings, table, project.machine.kind)
    owed = find_promises(speech, project.links)
    findings = run_checks(Evidence(project, table, reading, procedure, cautions, owed))
    settled, stale = apply_decisions(findings, read_decisions(folder), speech)
    return Examination(project, table, reading, procedure, cautions, owed, settled, stale)


def values_of(mentions: Sequence[Mention]) -> tuple[ValueAt, ...]:
    """Mentions as the procedure takes them: the manual's value where a row has one, else what was said."""
    found = []
    for mention in mentions:
        if mention.kind in ("count", "year", "money"):
            continue
        # A reader under a car follows what is printed: only a value whose item is certain goes into a step.
        doubtful = mention.row is not None and not mention.certain
        told = mention.role == "stated" or (mention.role == "of_tool" and mention.kind == "tool_size")
        quoted = not told or mention.restates is not None or doubtful or mention.untouched
        found.append(
            ValueAt(mention.first, mention.end, mention.kind, shown_in_guide(mention), mention.item, mention.id, quoted)
        )
    return tuple(found)
