"""guide.html as parsers and validators of HTML read it.

html5lib follows the parsing section of the HTML standard (WHATWG) and, made strict, refuses each parse error. The Nu Html
Checker (W3C, npm `vnu-jar`) holds elements, attributes, ARIA and CSS against their standards; it is left out where Java
or the checker is absent: `npm install --no-save vnu-jar` puts it where it is looked for.
"""

import json
import shutil
import subprocess
from pathlib import Path
from urllib.parse import unquote

import html5lib
import pytest
from guide_pages import NAMES, ROOT, page
from html5lib.html5parser import ParseError

CHECKER = ROOT / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
JAVA = shutil.which("java")
NOT_MENDED = {
    # WebKit takes the role from a list whose `list-style` is `none`: the attribute gives it back.
    "The “list” role is unnecessary for element": "",
    # HTML standard, "prepare the script element": what is no script is left before a policy is asked.
    "Inline script violates Content Security Policy": '<script type="application/ld+json">',
    # The policy has `img-src data:`. test_guide_in_a_browser.py shows that the pictures are loaded.
    "Resource violates Content Security Policy (meta tag): image “data:image/jpeg;base64,": '<img class="still"',
}
"""Warnings that stand: their beginning, and what the markup they point at holds."""


def strict(text: str) -> None:
    html5lib.HTMLParser(strict=True).parse(text)


@pytest.mark.parametrize("name", NAMES)
def test_there_is_no_parse_error(name: str) -> None:
    strict(page(name))


@pytest.mark.parametrize(
    ("sound", "wrong"),
    [("</nav>", ""), ("<td", "<div></div><td"), ("</h1>", "</h2>"), ('<html lang="en">', '<html lang="en" lang="de">')],
)
def test_a_parse_error_would_be_told(sound: str, wrong: str) -> None:
    text = page("front_brakes")
    assert sound in text
    with pytest.raises(ParseError):
        strict(text.replace(sound, wrong, 1))


WRONG = {
    "rule": ("margin: 0;", "margin: none;"),
    "twice": ('id="step-2"', 'id="step-1"'),
    "role": ('role="note"', 'role="notes"'),
    "heading": ("<h2>Before you start</h2>", ""),
}


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, str]]:
    """What the Nu Html Checker finds, but for the warnings that stand: name of a page, message."""
    if JAVA is None or not CHECKER.is_file():
        pytest.skip("no Java, or no Nu Html Checker, is installed")
    folder = tmp_path_factory.mktemp("pages")
    spoilt = {name: page("front_brakes").replace(*change, 1) for name, change in WRONG.items()}
    for name, text in {**{name: page(name) for name in NAMES}, **spoilt}.items():
        (folder / f"{name}.html").write_text(text, encoding="utf-8")
    java = [JAVA, "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss4m", "-jar", str(CHECKER)]
    files = sorted(map(str, folder.iterdir()))
    flags = ("--format", "json", "--stdout", "--exit-zero-always")
    ran = subprocess.run([*java, *flags, *files], capture_output=True, check=True)
    messages = json.loads(ran.stdout)["messages"]
    return [(Path(unquote(each["url"])).stem, each["message"]) for each in messages if not stands(each)]


def stands(message: dict[str, str]) -> bool:
    return message["type"] == "info" and any(
        message["message"].startswith(beginning) and markup in message.get("extract", "")
        for beginning, markup in NOT_MENDED.items()
    )


def test_the_nu_checker_has_no_error_and_no_warning(told: list[tuple[str, str]]) -> None:
    assert [each for each in told if each[0] in NAMES] == []


def test_the_nu_checker_would_tell(told: list[tuple[str, str]]) -> None:
    assert {name for name, _ in told} - {*NAMES} == WRONG.keys()
