"""From speech to mentions: the stages of reading in order."""

from collections.abc import Sequence
from dataclasses import replace

from witnessmark.language.speech import Speech
from witnessmark.quantity import Amount, CaptionSpan
from witnessmark.reading.attribution import Attribution, Attributor
from witnessmark.reading.figures import Talk, find_figures, plain_figure
from witnessmark.reading.focus import Focus, focus_on
from witnessmark.reading.grades import GradeSaid, find_grades
from witnessmark.reading.kinds import KindRules, Measured
from witnessmark.reading.model import Mention, Reading
from witnessmark.reading.relations import link_restated, link_stages, share_items
from witnessmark.reading.roles import Role, RoleRules
from witnessmark.reading.sightings import Sighting, find_sightings
from witnessmark.reading.torque_units import TorqueUnits
from witnessmark.specs.table import SpecTable
from witnessmark.units import dimension

LONELY = frozenset({"count", "year", "money"})  # kinds that no row is sought for


def read(speech: Speech, table: SpecTable, title: str = "") -> Reading:
    """All mentions of a recording, in order of time. title: what the recording is about."""
    talk = Talk(speech)
    sightings = find_sightings(speech, table)
    grades = find_grades(
        talk.texts, talk.numbers, (row.grade for row in table.rows if row.kind == "grade" and row.grade)
    )
    covered = {i for grade in grades for i in range(grade.start, grade.end)}
    figures = [figure for figure in find_figures(talk) if not covered & set(range(figure.start, figure.number_end))]
    focus = focus_on(
        table, speech, title, [(s.start, s.end) for s in sightings if s.kind != "fastener" and s.item is None]
    )
    things = focus.sayings(row.item for row in table.rows if row.kind == "torque")
    kinds = KindRules(talk, figures, sightings, things, table, focus)
    found = kinds.read()
    torque_units = TorqueUnits(talk, found, things, kinds.declared)
    mentions = _mentions(talk, table, focus, sightings, found, torque_units)
    mentions += _grade_mentions(talk, table, focus, sightings, grades)
    mentions.sort(key=lambda mention: mention.first)
    numbered = [replace(mention, id=f"m{n}") for n, mention in enumerate(mentions, 1)]
    return Reading(speech, sightings, tuple(share_items(link_stages(talk, link_restated(talk, numbered, things)))))


def _mentions(
    talk: Talk,
    table: SpecTable,
    focus: Focus,
    sightings: Sequence[Sighting],
    found: Sequence[Measured],
    torque_units: TorqueUnits,
) -> list[Mention]:
    rules = RoleRules(talk, found, sightings, focus.title)
    roles = [rules.role(i) for i in range(len(found))]
    attributor = Attributor(talk, table, focus, sightings, [one.size for one in found if one.size])
    mentions: list[Mention] = []
    mask: list[tuple[int, int]] = []
    for i, (one, role, limit) in enumerate(zip(found, roles, _limits(found, roles), strict=True)):
        retraction = rules.retraction(i)
        if role == "retracted" and one.inferred:
            mask.append((one.figure.start, retraction[1] if retraction else one.figure.end))
            continue
        if one.kind in LONELY or role in ("of_tool", "other_machine"):
            about = Attribution(None, None)
        else:
            about = attributor.attribute(one, mask, retraction[1] if retraction else limit, role == "retracted")
        if retraction:
            mask.append(retraction)
        unit = torque_units.unit(i, about.item) if one.kind == "torque" else one.unit
        mentions.append(_mention(talk, one, unit, role, about, rules.specified(i), rules.untouched(i)))
    return mentions


def _limits(found: Sequence[Measured], roles: Sequence[Role]) -> list[int | None]:
    """For each value, where the next of its kind stands: words past it speak of that one.

    "43, not 34, on the fill plug": a value only warned against has no words of its own.
    """
    following: dict[str, int] = {}
    limits: list[int | None] = []
    for one, role in zip(reversed(found), reversed(roles), strict=True):
        limits.append(following.get(one.kind))
        if role != "warned":
            following[one.kind] = one.figure.start
    return limits[::-1]


def _mention(
    talk: Talk, one: Measured, unit: str | None, role: Role, about: Attribution, specified: bool, untouched: bool
) -> Mention:
    figure = one.figure
    first, end = (one.size.start, one.size.end) if one.size else (figure.start, figure.end)
    amount = Amount(figure.low, figure.low, unit or "")
    partner = figure.partner
    whole = (
        Amount(min(figure.low, partner.low), max(figure.low, partner.low), unit or "", "range") if partner else amount
    )
    return Mention(
        "", one.kind, first, end, _span(talk, first, end), amount, whole, None, one.size, role, one.inferred, unit in figure.short,
        about.item, about.row, about.rivals, sure=about.sure, clear=about.clear, faint=about.faint, specified=specified, untouched=untouched,
        units=tuple(label for label in figure.labels if unit and dimension(label) == dimension(unit) and label not in figure.short),
    )  # fmt: skip


def _grade_mentions(
    talk: Talk, table: SpecTable, focus: Focus, sightings: Sequence[Sighting], grades: Sequence[GradeSaid]
) -> list[Mention]:
    attributor = Attributor(talk, table, focus, sightings, [])
    figures = [Measured(plain_figure(grade.start, grade.end), "grade", None, False) for grade in grades]
    rules = RoleRules(talk, figures, sightings, focus.title)
    roles = [rules.role(i) for i in range(len(figures))]
    mentions = []
    for grade, one, role, limit in zip(grades, figures, roles, _limits(figures, roles), strict=True):
        about = attributor.grade_of(grade, one, limit)
        span = _span(talk, grade.start, grade.end)
        mentions.append(
            Mention(
                "",
                "grade",
                grade.start,
                grade.end,
                span,
                None,
                None,
                grade.grade,
                None,
                role,
                False,
                False,
                about.item,
                about.row,
                about.rivals,
                sure=about.sure,
                clear=about.clear,
                specified=True,
            )
        )
    return mentions


def _span(talk: Talk, first: int, end: int) -> CaptionSpan:
    start, stop = talk.speech.span_times(first, end)
    return CaptionSpan(start, stop, talk.speech.said(first, end))
