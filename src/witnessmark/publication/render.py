"""Templates: the packaged ones, or a project's own of the same name, run where they can do no harm."""

import json
import re
from collections.abc import Callable
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import FileSystemLoader, StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from witnessmark.errors import InputError
from witnessmark.proof.wording import clock
from witnessmark.publication.escape import json_text, markdown, printable
from witnessmark.publication.values import shown_value
from witnessmark.quantity import Amount, Value
from witnessmark.units import units

PACKAGE = Path(__file__).resolve().parents[1]
SHIPPED = (PACKAGE / "templates", PACKAGE.parents[1] / "templates")
"""Where the templates stand in an installed package, and in a working copy."""

NEVER_BARE = (float, Decimal, Amount, Value)
"""What a template may print only through a filter."""


def render(name: str, project: Path, **given: Any) -> str:
    """Fill a template, `guide.md.j2` or the like, from `templates/` of a project or else the packaged one.

    Raises InputError where a project's own template is wrong.
    """
    own = project / "templates"
    environment = _environment(own, html=name.endswith(".html.j2"))
    try:
        return environment.get_template(name).render(given)
    except (TemplateError, TypeError, OSError, UnicodeDecodeError) as why:
        if not (own / name).is_file():
            raise
        line = f" line {why.lineno}" if isinstance(why, TemplateSyntaxError) else ""
        raise InputError(
            f"templates/{name}{line}", str(why), "mend your template, or delete it for the packaged one"
        ) from why


def _environment(own: Path, html: bool) -> ImmutableSandboxedEnvironment:
    escaped: Callable[[str], Markup] = escape if html else _escaped_markdown

    def finalize(thing: object) -> object:
        if isinstance(thing, NEVER_BARE):
            raise TypeError(f"a {type(thing).__name__} is printed through the filter `shown` or `clock` only")
        return thing if isinstance(thing, Markup) else escaped(printable(str(thing)))

    environment = ImmutableSandboxedEnvironment(
        loader=FileSystemLoader([own, *SHIPPED]),
        undefined=StrictUndefined,
        autoescape=html,
        finalize=finalize,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["shown"] = lambda value: (whole if html else escaped)(shown_value(value))
    environment.filters["whole"] = whole
    environment.filters["clock"] = lambda seconds: Markup(clock(seconds))
    environment.filters["quoted"] = lambda text: Markup(json.dumps(printable(text), ensure_ascii=False))
    return environment


def _escaped_markdown(text: str) -> Markup:
    return Markup(markdown(text))


def whole(text: str) -> Markup:
    """A text for a page, in which no line ends between a figure and its unit, within a range, or after "p."."""
    kept = Markup('<span class="whole">{}</span>')
    parts = _figures().split(printable(text))
    return Markup("").join(kept.format(part) if place % 2 else escape(part) for place, part in enumerate(parts))


@cache
def _figures() -> re.Pattern[str]:
    labels = "|".join(re.escape(label) for label in units() if label[0].isalpha())
    return re.compile(rf"(?<![\w.,/])(\d[\d.,/]*(?:–\d[\d.,/]*)? (?:{labels})s?(?!\w)|pp?\. \d+)")


def data_block(data: object) -> Markup:
    """Data as JSON that can stand inside an HTML script element: nothing in it can end the element."""
    text = json_text(json.dumps(data, ensure_ascii=False, indent=1))
    return Markup(text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026"))
