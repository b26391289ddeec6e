"""A whole project examined: every stage run once, in order, its result kept for the writers."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from witnessmark.language.heard import corrector
from witnessmark.language.speech import read_speech
from witnessmark.procedure.cautions import find_cautions
from witnessmark.procedure.find import find_procedure
from witnessmark.procedure.lexicon import word_set
from witnessmark.procedure.model import ValueAt
from witnessmark.procedure.promises import find_promises
from witnessmark.project import read_project
from witnessmark.proof.checks import run_checks
from witnessmark.proof.decisions import Decision, apply_decisions, read_decisions
from witnessmark.proof.doubt import doubted
from witnessmark.proof.evidence import Evidence
from witnessmark.proof.model import Finding
from witnessmark.proof.rulings import ruled
from witnessmark.proof.turning import with_right_turns
from witnessmark.reading.model import Mention, Reading
from witnessmark.reading.read import read
from witnessmark.reading.shown import shown_in_guide
from witnessmark.specs.table import SpecTable, read_tables
from witnessmark.transcript import read_transcript


@dataclass(frozen=True)
class Examination(Evidence):
    """Everything that is known of one recording.

    ruled: the reading with the values that the creator decided on, as a guide tells them; the procedure tells the same.
    stale: decisions that fit no finding any more.
    """

    findings: tuple[Finding, ...]
    ruled: Reading
    stale: tuple[Decision, ...] = ()


def examine(folder: Path) -> Examination:
    """Read and check the project in a folder. Raises InputError where its files are wrong."""
    project = read_project(folder)
    table = read_tables(project.specs)
    transcript = read_transcript(project.captions)
    speech = read_speech(transcript, corrector(project, table))
    reading = doubted(read(speech, table, project.title), table)
    kind = project.machine.kind or ""
    procedure = find_procedure(speech, reading.sightings, values_of(reading.mentions, table, project.title), kind)
    cautions = find_cautions(speech, reading.sightings, table, kind)
    owed = find_promises(speech, project.links)
    findings = run_checks(Evidence(project, table, reading, procedure, cautions, owed))
    settled, stale = apply_decisions(findings, read_decisions(folder), speech)
    told = ruled(reading, settled)
    if told is not reading:
        procedure = find_procedure(speech, reading.sightings, values_of(told.mentions, table, project.title), kind)
    procedure = with_right_turns(procedure, settled)
    return Examination(project, table, reading, procedure, cautions, owed, settled, told, stale)


def values_of(mentions: Sequence[Mention], table: SpecTable, title: str) -> tuple[ValueAt, ...]:
    """Mentions as the procedure takes them: the manual's value where a row has one, else what was said.

    title: of the recording, which may tell the place of the work ("front brakes").
    """
    found = []
    begun = {mention.staged_after for mention in mentions}
    for mention in mentions:
        if mention.kind in ("count", "year", "money"):
            continue
        # A reader under a car follows what is printed: only a value whose item is certain goes into a step.
        doubtful = mention.row is not None and not mention.certain
        told = mention.role == "stated" or (mention.role == "of_tool" and mention.kind == "tool_size")
        plain = told and mention.restates is None and not mention.untouched
        found.append(
            ValueAt(
                mention.first,
                mention.end,
                mention.kind,
                shown_in_guide(mention, mention.stage == 0 and mention.id not in begun),
                mention.item,
                mention.id,
                quoted=doubtful or not plain,
                measured=mention.role == "measured" and mention.row is not None and not doubtful,
                property=mention.row.property if mention.row is not None else "",
                doubtful=doubtful and plain and not mention.tool_sized and not _has_twin(mention.item, table, title),
            )
        )
    return tuple(found)


def _has_twin(item: str | None, table: SpecTable, title: str) -> bool:
    """Whether another row is told apart by its place alone: the rear bolts, where the front ones may be meant.

    A recording whose title names the one place and no other speaks of that one.
    """
    places = word_set("places_first")
    own = set((item or "").split())
    titled = places & set(re.findall(r"[a-z]+", title.lower()))
    if titled and titled == own & places:
        return False
    others = (set(row.item.split()) for row in table.rows if row.item != item)
    return bool(own & places) and any(own - places == other - places for other in others)
