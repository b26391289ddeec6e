"""guide.pdf as Poppler (https://poppler.freedesktop.org) reads it."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from witnessmark.errors import InputError
from witnessmark.examination import examine
from witnessmark.publication.guide_pdf import guide_pdf
from witnessmark.publication.manuscript import Manuscript, prepare

pytestmark = pytest.mark.skipif(
    shutil.which("pdftotext") is None or shutil.which("pdfinfo") is None, reason="Poppler is not installed"
)
SAMPLE = Path(__file__).parents[2] / "sample_projects" / "front_brakes"


@pytest.fixture(scope="module")
def manuscript() -> Manuscript:
    return prepare(examine(SAMPLE))


@pytest.fixture(scope="module")
def pages(manuscript, tmp_path_factory) -> list[str]:
    pytest.importorskip("weasyprint")
    path = tmp_path_factory.mktemp("pdf") / "guide.pdf"
    try:
        path.write_bytes(guide_pdf(manuscript))
    except InputError as why:
        pytest.skip(str(why))
    text = subprocess.run(["pdftotext", "-layout", str(path), "-"], capture_output=True, check=True, text=True).stdout
    info = subprocess.run(["pdfinfo", str(path)], capture_output=True, check=True, text=True).stdout
    told = [page for page in text.split("\f") if page.strip()]
    assert len(told) == int(re.search(r"Pages:\s+(\d+)", info)[1])
    assert "Morvane Corrit" in re.search(r"Title:\s+(.*)", info)[1] and "CreationDate" not in info
    return told


def test_each_page_has_its_number(pages):
    assert 5 <= len(pages) <= 14
    for number, page in enumerate(pages, 1):
        assert re.search(rf"\b{number}\s*/\s*{len(pages)}$", page.rstrip().splitlines()[-1])


def test_the_torque_table_stands_on_the_last_page_alone(pages):
    assert "Torques" in pages[-1] and "110 N·m (81 lbf·ft)" in pages[-1] and "Done" in pages[-1]
    assert "The workshop manual of your machine comes first" in " ".join(pages[-1].split())
    assert not any("Checked against" in page for page in pages[:-1])
    assert "Corrections to the video" not in pages[-1]


def test_a_step_stands_on_one_page_with_its_cautions(manuscript, pages):
    plain = [" ".join(page.split()) for page in pages]
    steps = manuscript.examination.procedure.steps
    assert any(manuscript.at_step)
    for step, cautions in zip(steps, manuscript.at_step, strict=True):
        where = [number for number, page in enumerate(plain) if " ".join(step.text.split()[:6]) in page]
        for caution in cautions:
            beginning = " ".join(caution.text.split()[:5])
            assert any(beginning in plain[number] for number in where), (step.text, caution.title)


def test_the_bytes_are_the_same_every_time(manuscript, pages):
    assert guide_pdf(manuscript) == guide_pdf(manuscript)
