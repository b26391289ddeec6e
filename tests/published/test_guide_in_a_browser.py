"""guide.html in Chromium: axe-core finds no barrier in it, it fits a phone, and its print divides no step.

axe-core (Deque; the copy that axe-playwright-python carries) tests WCAG 2.2, A to AAA, and its own best practices. Every
rule is on, those on trial too, but for the contrast of level AA: that of level AAA holds the same text to more. Left out
where no Chromium is installed; Playwright drives the one of the system.
"""

import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import axe_playwright_python
import pytest
from chromium import BROWSER, PATIENCE
from guide_pages import NAMES, SAMPLES, manuscript, page
from playwright.sync_api import Browser, Page, sync_playwright

pytestmark = pytest.mark.skipif(BROWSER is None, reason="no Chromium is installed")
AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
RUN = """() => axe.run(document, {
  runOnly: {type: "rule", values: axe.getRules().map((rule) => rule.ruleId).filter((id) => id !== "color-contrast")},
  resultTypes: ["violations", "incomplete"], elementRef: false,
})"""
SETTLED = {
    # A sign has the ink of the signal word beside it, whose contrast is measured.
    "color-contrast-enhanced": 'class="sign" aria-hidden="true">',
    # What is for paper alone is hidden from everybody else.
    "hidden-content": ('class="on-paper"', 'class="tick"', 'class="wall"'),
}
"""Rules that axe-core leaves to a person, and what the markup holds in which they are settled."""
PHONE, DESK = 360, 1280
"""Widths in CSS pixels."""
CROSSED = ("circulation_pump", "wheelbarrow_wheel")
NARROWEST = 320
"""Width in CSS pixels to which text must flow anew: WCAG 2.2, 1.4.10."""

Open = Callable[..., Page]


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"], timeout=PATIENCE * 1000)
        yield started
        started.close()


@pytest.fixture
def opened(browser: Browser, tmp_path: Path) -> Iterator[Open]:
    """Opens a text as a page of a width in CSS pixels, in the light or the dark, by finger or by mouse."""
    contexts = []

    def open_page(text: str, width: int, scheme: Any = "light") -> Page:
        (tmp_path / "guide.html").write_text(text, encoding="utf-8")
        size: Any = {"width": width, "height": 800}
        contexts.append(browser.new_context(viewport=size, color_scheme=scheme, has_touch=width < DESK))
        opened = contexts[-1].new_page()
        opened.set_default_timeout(PATIENCE * 1000)
        opened.goto((tmp_path / "guide.html").as_uri())
        return opened

    yield open_page
    for each in contexts:
        each.close()


def barriers(opened: Page) -> list[str]:
    """What axe-core finds in a page, and what it leaves to a person that is not settled."""
    opened.evaluate(AXE)
    told = opened.evaluate(RUN)
    assert len(told["passes"]) > 25
    found = [(rule, node) for kind in ("violations", "incomplete") for rule in told[kind] for node in rule["nodes"]]
    return [f"{rule['id']}: {node['html'][:200]}" for rule, node in found if not settled(rule, node)]


def settled(rule: dict[str, Any], node: dict[str, Any]) -> bool:
    markup = SETTLED.get(rule["id"], ())
    reasons = [each["data"].get("messageKey") for each in node["any"] if isinstance(each["data"], dict)]
    only_a_sign = rule["id"] == "hidden-content" or reasons == ["nonBmp"]
    return only_a_sign and any(each in node["html"] for each in ([markup] if isinstance(markup, str) else markup))


LOOKS = ((PHONE, "light"), (DESK, "dark"), (DESK, "light"), (PHONE, "dark"))


# Colours hardly hang on the width: the samples that are quickest to test are crossed, the others have each once.
@pytest.mark.parametrize(
    ("name", "width", "scheme"),
    [(name, *look) for name in SAMPLES for look in LOOKS[: 4 if name in CROSSED else 2]]
    + [("nothing_said", PHONE, "dark")],
)
def test_there_is_no_barrier(name: str, width: int, scheme: str, opened: Open) -> None:
    assert barriers(opened(page(name), width, scheme)) == []


@pytest.mark.parametrize(
    ("rule", "sound", "wrong"),
    [
        ("color-contrast-enhanced", "--soft: #4b5156", "--soft: #666c71"),
        ("html-has-lang", ' lang="en"', ""),
        ("label", "<label>", "<div>"),
        ("image-alt", ' alt="Step', ' data-alt="Step'),
        ("heading-order", "<h3>Tools</h3>", "<h4>Tools</h4>"),
        ("region", "<main>", "<div>"),
        ("target-size", "padding-block: .6rem", "padding-block: 0; line-height: 1"),
    ],
)
def test_a_barrier_would_be_told(rule: str, sound: str, wrong: str, opened: Open) -> None:
    text = page("wheelbarrow_wheel")
    assert sound in text
    assert any(each.startswith(f"{rule}: ") for each in barriers(opened(text.replace(sound, wrong), PHONE)))


def test_a_dark_page_is_dark(opened: Open) -> None:
    grounds = [opened(page("nothing_said"), PHONE, scheme) for scheme in ("light", "dark")]
    painted = [each.evaluate("getComputedStyle(document.body).backgroundColor") for each in grounds]
    assert painted == ["rgb(251, 250, 246)", "rgb(21, 24, 26)"]


@pytest.mark.parametrize("name", NAMES)
def test_nothing_stands_out_over_a_phones_edge(name: str, opened: Open) -> None:
    phone = opened(page(name), NARROWEST)
    assert phone.evaluate("document.documentElement.scrollWidth") <= NARROWEST
    wider = "[...document.querySelectorAll('.scroll')].filter((each) => each.scrollWidth > each.clientWidth).length"
    assert phone.evaluate(wider) == 0


LONG_STEP = ".step:has-text('Wet everything with brake cleaner')"
"""A step of front_brakes that stands below long cautions, wherever its number is."""


def test_the_tables_are_still_tables_on_a_phone(opened: Open) -> None:
    told = opened(page("front_brakes"), PHONE).locator("#torques").aria_snapshot()
    assert 'table "Torques"' in told and 'columnheader "Checked against"' in told and "Done" not in told
    assert 'rowheader "front bleeder screw"' in told and 'cell "75 lbf·in (8.5 N·m)"' in told


def test_a_step_is_told_with_its_number(opened: Open) -> None:
    step = opened(page("front_brakes"), PHONE).locator(LONG_STEP)
    number, told = str(step.get_attribute("id")).removeprefix("step-"), step.aria_snapshot()
    assert f'- text: "{number}"' in told
    assert told.index("- note") < told.index("- paragraph: Wet everything with brake cleaner")


def test_the_number_of_a_long_step_stays_in_sight(opened: Open) -> None:
    phone = opened(page("front_brakes"), PHONE)
    step = phone.locator(LONG_STEP)
    step.locator(".text").evaluate("(each) => each.scrollIntoView({block: 'end', behavior: 'instant'})")
    box = step.locator(".number").bounding_box()
    assert box and 0 <= box["y"] < 200 and phone.evaluate("scrollY") > 1000


def test_a_figure_stays_with_its_unit(opened: Open) -> None:
    phone = opened(page("front_brakes"), PHONE)
    lines = "[...document.querySelectorAll('main .whole')].map((each) => each.getClientRects().length)"
    told = phone.evaluate(lines)
    assert len(told) > 40 and {*told} <= {0, 1}


def test_the_policy_lets_the_pictures_in_and_stops_nothing_else(opened: Open, browser: Browser) -> None:
    pytest.importorskip("av")
    shown = opened(page("wheelbarrow_wheel"), DESK)
    complaints: list[str] = []
    shown.on("console", lambda message: complaints.append(message.text))
    shown.reload()
    loaded = "Promise.all([...document.images].map((each) => (each.loading = 'eager', each.decode()))).then((all) => all.length)"
    assert shown.evaluate(loaded) == 6 and complaints == []


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="Poppler is not installed")
@pytest.mark.parametrize("name", ["circulation_pump", "front_brakes"])
def test_print_divides_no_step_from_its_cautions(name: str, opened: Open, tmp_path: Path) -> None:
    paper = tmp_path / "print.pdf"
    opened(page(name), DESK, "dark").pdf(path=paper, prefer_css_page_size=True)
    text = subprocess.run(["pdftotext", "-layout", str(paper), "-"], capture_output=True, check=True, text=True).stdout
    sheets = [" ".join(sheet.split()) for sheet in text.split("\f") if sheet.strip()]
    made = manuscript(name)
    assert 4 <= len(sheets) <= 12
    for step, cautions in zip(made.examination.procedure.steps, made.at_step, strict=True):
        beginnings = [" ".join(each.split()[:5]) for each in (step.text, *(caution.text for caution in cautions))]
        assert any(all(each in sheet for each in beginnings) for sheet in sheets), step.text
    assert "Checked against" in sheets[-1] and not any("Checked against" in sheet for sheet in sheets[:-1])
