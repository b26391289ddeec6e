"""description.txt: the description of the upload, within the number of characters that the upload page takes."""

from collections.abc import Collection, Iterator, Mapping, Sequence

from witnessmark.procedure.cautions import Caution
from witnessmark.procedure.promises import Owed
from witnessmark.procedure.signal_words import ORDER
from witnessmark.procedure.titles import AROUND
from witnessmark.proof.model import Finding
from witnessmark.proof.owed import PROMISED
from witnessmark.proof.restated_pair import NAME as RESTATED
from witnessmark.proof.value_against_row import NAME as VALUE
from witnessmark.proof.wording import bare, clock
from witnessmark.publication.chapters_txt import chapter_lines
from witnessmark.publication.corrections import Correction, corrections
from witnessmark.publication.escape import printable
from witnessmark.publication.fitted import Section, fitted
from witnessmark.publication.guide import machine_named
from witnessmark.publication.kit import KitItem
from witnessmark.publication.manuscript import Manuscript
from witnessmark.publication.torques import TorqueLine, torque_lines
from witnessmark.publication.values import shown_value

STATEMENT = (
    "The workshop manual of your machine, local codes and licensed practice come first, before this video and this "
    "text. Neither says that the repair is safe or that it suits your machine."
)
OF_A_VALUE = frozenset({VALUE, RESTATED})
"""Checks that find another value said than the table has."""


def description_txt(manuscript: Manuscript) -> str:
    """The text of description.txt, at most `[description] limit` of repair.toml long."""
    return fitted(_sections(manuscript), manuscript.examination.project.description_limit)


def _sections(manuscript: Manuscript) -> tuple[Section, ...]:
    """All there is to say, in order; the weights tell what goes first where it is too much.

    Last go the chapters, the corrections and the torques, whose loss could hurt somebody; the statement never goes.
    """
    examination, kit = manuscript.examination, manuscript.kit
    filled = [each for each in examination.owed if each.settled is not None]
    owing = [each for each in examination.owed if each.settled is None]
    links = dict(examination.project.links)
    cards = corrections(examination.findings)
    corrected = {finding.item for card in cards for finding in card.findings if finding.check in OF_A_VALUE}
    # Players take the first list of times for the chapters (common practice): it goes before the corrections, whose
    # times stand inside their lines.
    return (
        _section("title", "", _summary(manuscript), 11),
        _section("", "", [STATEMENT], None),
        _section("chapters", "Chapters", chapter_lines(manuscript), 10, whole=True),
        _section("corrections", "Corrections to this video", map(_correction, cards), 9),
        _section("torques", "Torques", (_torque(line, corrected) for line in torque_lines(examination)), 8),
        _section("cautions", "Take care", _cautions(examination.cautions), 7),
        _section("links", "Links", dict.fromkeys(_link(each, links) for each in filled), 6),
        _section("tools", "Tools", map(_thing, kit.tools), 5),
        _section("parts", "Parts the work touches", map(_thing, kit.parts), 3),
        _section("supplies", "Supplies", map(_thing, kit.supplies), 4),
        _section("promises not kept yet", "Promised in the video, still owed", dict.fromkeys(map(_owing, owing)), 2),
    )


def _section(
    name: str,
    heading: str,
    lines: Iterator[str] | Sequence[str] | dict[str, None],
    weight: int | None,
    whole: bool = False,
) -> Section:
    return Section(name, heading, tuple(map(_plain, lines)), weight, whole)


def _plain(line: str) -> str:
    """A line that upload pages take: some refuse angle brackets (common practice)."""
    return printable(line).replace("<", "‹").replace(">", "›")


def _summary(manuscript: Manuscript) -> Iterator[str]:
    """The title; then the machine, and from where to where the job goes."""
    project, procedure = manuscript.examination.project, manuscript.examination.procedure
    yield project.title
    chapters = [procedure.chapters[each].title for each in sorted({step.chapter for step in procedure.steps})]
    titles = [title for title in chapters if title not in AROUND]
    machine = machine_named(project.machine)
    told = [f"Machine: {machine}."] if machine else []
    if len(titles) > 1:
        told.append(f'The work goes from "{_lowered(titles[0])}" to "{_lowered(titles[-1])}".')
    if told:
        yield " ".join(told)


def _lowered(title: str) -> str:
    return title[:1].lower() + title[1:] if title[1:2].islower() else title


def _correction(card: Correction) -> str:
    """Time, what the manual says, and what the video says instead."""
    finding = card.findings[0]
    counts = card.matter
    if finding.value is not None and _is_the_tables(finding):
        source = f" ({finding.row.source})" if finding.row and finding.row.source else ""
        counts = f"{finding.item}: the manual says {shown_value(finding.value)}{source}"
    said = f'; the video says "{bare(finding.said)}"' if finding.mentions and finding.said else ""
    return f"- At {clock(card.start / 1000)}, {counts}{said}"


def _is_the_tables(finding: Finding) -> bool:
    """Whether what counts is the value of the row, and no tool size of it and no other value that the creator decided on."""
    value = finding.value
    return value is not None and finding.expected in (shown_value(value), value.printed)


def _torque(line: TorqueLine, corrected: Collection[str | None]) -> str:
    """One fastener. corrected: the items of whose values the corrections speak; what else differs was not sure enough."""
    tool = f", tool {line.tool}" if line.tool else ""
    if line.value is None:
        return f"- {line.item}: look it up in the manual{tool}"
    text = f"- {line.item}: {shown_value(line.value)}{tool}"
    if line.state == "differs" and line.said is not None and line.item in corrected:
        return f"{text}; the video says {shown_value(line.said)}"
    return text if line.source else f"{text}; unchecked, as the video says it"


def _cautions(cautions: Sequence[Caution]) -> Iterator[str]:
    """Each danger once, the gravest first: how to avoid what can kill or maim, the names of the others."""
    in_order = sorted(cautions, key=lambda each: (ORDER.index(each.signal), not each.whole_job, each.start))
    grave = (each for each in in_order if each.signal in ("DANGER", "WARNING"))
    yield from dict.fromkeys(f"- {each.signal}, {_lowered(each.title)}: {each.avoid}" for each in grave)
    for signal in ORDER[2:]:
        titles = dict.fromkeys(_lowered(each.title) for each in in_order if each.signal == signal)
        if titles:
            yield f"- {signal}: {'; '.join(titles)}"


def _link(owed: Owed, links: Mapping[str, str]) -> str:
    return f"- {owed.about}: {links.get(owed.settled or '', owed.settled)}"


def _owing(owed: Owed) -> str:
    return f"- {PROMISED[owed.kind]}: {owed.about} (promised at {clock(owed.start)})"


def _thing(item: KitItem) -> str:
    return f"- {item.name}, {item.size}" if item.size else f"- {item.name}"
