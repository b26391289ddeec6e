import json
import re
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser

import pytest
from hand_made import caution, step
from markdown_it import MarkdownIt

from witnessmark.errors import InputError
from witnessmark.procedure.model import Chapter, Note, Procedure
from witnessmark.project import Machine
from witnessmark.publication.guide import machine_named
from witnessmark.publication.guide_html import guide_html
from witnessmark.publication.guide_md import guide_md
from witnessmark.publication.render import render, whole
from witnessmark.publication.values import shown_value


def test_the_manual_goes_first_and_safety_is_not_claimed(manuscript):
    for text in (guide_md(manuscript()), guide_html(manuscript())):
        assert "The workshop manual of your machine, local codes and licensed practice come first" in text
        assert "does not say that the repair is safe" in text


def test_a_value_that_differs_is_the_manuals_and_tells_what_the_video_says(manuscript):
    text = guide_md(manuscript())
    assert "- drain plug: 30 N·m (22 lbf·ft) (from Manual p. 9; the video says 50 N·m (37 lbf·ft) at 0:4" in text
    corrections = text[text.index("## Corrections to the video") :]
    assert "| drain plug | 50 N·m (37 lbf·ft) | 30 N·m (22 lbf·ft) | Manual p. 9 |" in corrections
    assert "bracket bolts" not in corrections


def test_what_was_only_measured_is_told_beside_the_manuals_value(manuscript):
    made = manuscript()
    mentions = tuple(
        replace(each, role="measured") if each.item == "drain plug" else each
        for each in made.examination.ruled.mentions
    )
    examination = replace(made.examination, ruled=replace(made.examination.ruled, mentions=mentions))
    text = guide_md(replace(made, examination=examination))
    assert "- drain plug: 30 N·m (22 lbf·ft) (from Manual p. 9; the video measures 50 N·m (37 lbf·ft) at 0:4" in text


def test_a_value_that_agrees_is_marked_checked(manuscript):
    assert "- bracket bolts: 25 N·m (18 lbf·ft) (checked: Manual p. 4)" in guide_md(manuscript())


def test_a_caution_stands_before_its_step_with_its_signal_word(manuscript):
    text = guide_md(manuscript(cautions=(caution("pinch-1", 41.0),)))
    order = [text.index(each) for each in ("1. Fit the bracket", "**WARNING: Pinch.**", "2. Fit the drain")]
    assert order == sorted(order)


def test_a_caution_of_the_whole_job_stands_before_the_start(manuscript):
    text = guide_md(manuscript(cautions=(caution("lift-1", 41.0, whole_job=True),)))
    assert text.index("## Before you start") < text.index("**WARNING: Pinch.**") < text.index("### Tools")


def test_a_step_shown_later_stands_in_the_chapter_that_it_belongs_to(manuscript):
    early = replace(step(40.0, "Loosen the nut first.", chapter=1), shown_later=40.0)
    steps = (step(1.0, "Fit one."), early, step(20.0, "Fit two."), step(50.0, "Fit three.", chapter=1))
    procedure = Procedure(steps, (Chapter(0.0, "First"), Chapter(40.0, "Second")), (), ())
    text = guide_md(manuscript(procedure=procedure))
    order = ["## First", "1. Fit one", "2. Loosen the nut first. (The video shows this later, at 0:40.)", "3. Fit two"]
    places = [text.index(each) for each in (*order, "## Second", "4. Fit three")]
    assert places == sorted(places) and text.count("## First") == text.count("## Second") == 1


def test_what_is_told_of_the_machine_is_quoted_with_its_time(manuscript):
    notes = (
        Note("symptom", 3.0, 5.0, 0, 5, "it grinds <b> *loudly*"),
        Note("cost", 65.0, 67.0, 9, 14, "it was 61 dollars"),
    )
    procedure = Procedure((step(1.0, "Fit one."),), (Chapter(0.0, "First"),), (), (), notes)
    text = guide_md(manuscript(procedure=procedure))
    order = [
        "## What shows that it is due",
        "- Said at 0:03: ",
        "## Before you start",
        "## First",
        "## Told along the way",
    ]
    places = [text.index(each) for each in (*order, '- Said at 1:05: "it was 61 dollars"')]
    assert places == sorted(places)
    page = guide_html(manuscript(procedure=procedure))
    assert "<q>it grinds &lt;b&gt; *loudly*</q>" in page and 'href="#told"' in page


def test_the_machine_is_named_with_all_that_is_known_of_it():
    machine = Machine("family hatchback", "Morvane", "Corrit", "2013-2018", "118,000 km")
    assert machine_named(machine) == "Morvane Corrit, family hatchback, 2013-2018, odometer at 118,000 km"
    assert machine_named(Machine(odometer="3100 h")) == "odometer at 3100 h" and machine_named(Machine()) == ""


def test_nothing_told_no_section(manuscript):
    assert "What shows" not in guide_md(manuscript()) and "Told along" not in guide_html(manuscript())


def test_only_a_value_is_shown():
    for thing in ("30 N·m", 30, 30.0, None):
        with pytest.raises(TypeError):
            shown_value(thing)  # type: ignore[arg-type]


def test_a_template_cannot_print_a_bare_figure(tmp_path):
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "guide.md.j2").write_text("{{ figure }}", encoding="utf-8")
    with pytest.raises(InputError, match="through the filter"):
        render("guide.md.j2", tmp_path, figure=30.5)


def test_a_projects_own_template_goes_first(tmp_path):
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "guide.md.j2").write_text("Mine: {{ words }}", encoding="utf-8")
    assert render("guide.md.j2", tmp_path, words="*plain*") == r"Mine: \*plain\*"


@pytest.mark.parametrize("wrong", ["{% for %}", "{{ missing }}", "{{ ''.__class__.__mro__ }}"])
def test_a_wrong_template_is_an_error_of_one_line(tmp_path, wrong):
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "guide.md.j2").write_text(wrong, encoding="utf-8")
    with pytest.raises(InputError, match=r"templates/guide\.md\.j2"):
        render("guide.md.j2", tmp_path)


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("Tighten to 110 N·m (81 lbf·ft).", ["110 N·m", "81 lbf·ft"]),
        ("a gap of 0.000–0.002 in", ["0.000–0.002 in"]),
        ("after 10,000 km or 24 months", ["10,000 km", "24 months"]),
        ("Corrit workshop manual p. 213", ["p. 213"]),
        ("20 N·m, then 90°", ["20 N·m"]),
        ("two M8 bolts and 3 washers, M8x1.25 mmm", []),
        ("<b>5 mm</b> & co.", ["5 mm"]),
    ],
)
def test_a_figure_is_kept_with_its_unit(text, kept):
    page = whole(text)
    assert re.findall(r'<span class="whole">(.*?)</span>', page) == kept
    assert unescape(re.sub(r'<span class="whole">(.*?)</span>', r"\1", page)) == text


class _Page(HTMLParser):
    """Tags, ids and the links to them."""

    VOID = frozenset({"meta", "input", "br", "link", "img", "hr"})

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: set[str] = set()
        self.scripts: list[str | None] = []

    def handle_starttag(self, tag, attrs):
        told = dict(attrs)
        self.tags.add(tag)
        self.ids += [told["id"]] if "id" in told else []
        self.links += [told["href"]] if "href" in told else []
        self.scripts += [told.get("type")] if tag == "script" else []
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def test_the_page_is_one_sound_file_without_scripts(manuscript):
    page = _Page()
    text = guide_html(manuscript())
    page.feed(text)
    assert page.open == []
    assert page.scripts == ["application/ld+json"]
    assert len(page.ids) == len(set(page.ids))
    assert all(link.startswith("#") and link[1:] in page.ids for link in page.links)
    assert not page.tags & {"img", "link", "iframe"} and "http-equiv" in text


def test_untrusted_text_stays_text_in_the_page(manuscript):
    steps = (step(20.0, "Fit </script><script>alert(1)</script> & co."),)
    procedure = Procedure(steps, (Chapter(0.0, "<b>One</b>"),), (), ())
    text = guide_html(manuscript(procedure=procedure))
    assert "<script>alert" not in text and "<b>One" not in text
    assert "Fit &lt;/script&gt;" in text


def test_the_page_carries_how_to_data(manuscript):
    text = guide_html(manuscript())
    data = json.loads(re.search(r'<script type="application/ld\+json">(.*?)</script>', text, re.S)[1])
    assert (data["@type"], data["name"]) == ("HowTo", "Bracket & <plug>")
    assert [section["name"] for section in data["step"]] == ["Bracket", "Drain plug"]
    assert data["step"][1]["itemListElement"][0]["position"] == 2
    assert "floor jack" in [tool["name"] for tool in data["tool"]]


def test_the_markdown_reads_as_one_document(manuscript):
    body = guide_md(manuscript()).split("---\n", 2)[2]
    html = MarkdownIt("commonmark").enable("table").render(body)
    assert "<h1>Bracket &amp; &lt;plug&gt;</h1>" in html
    assert '<ol start="2">' in html
