"""A document as one HTML file: reads on a phone, prints with its marks on every page, runs nothing, loads nothing."""

from importlib.resources import files

from transom.report.money.document import Document


def to_html(document: Document) -> str:
    """The page. Every text is escaped, whoever typed it."""
    from jinja2 import Environment, StrictUndefined

    source = (files("transom.report.money") / "page.html.j2").read_text(encoding="utf-8")
    environment = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    return environment.from_string(source).render(d=document, kind_of=lambda block: type(block).__name__)
