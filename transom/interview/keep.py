"""Answers into a job file: a new one, or one that stands, with its comments."""

from collections.abc import Mapping
from typing import Any

from transom.errors import JobError
from transom.interview.answers import UNKNOWN, file_answers
from transom.interview.questions import KEYS
from transom.job.syntax import parse
from transom.job.write import blank


def new_text(answers: Mapping[str, Any], si: bool) -> str:
    """A whole job file in tape order, what was not answered as "?"."""
    return blank({**({"job.units": "si"} if si else {}), **file_answers(answers)})


def known_in(text: str) -> dict[str, Any]:
    """What a job file already says, by path, as it stands there: not what waits as "?".

    Raises:
        JobError: it is not TOML.
    """
    document = parse(text.removeprefix("\ufeff"))
    found = {path: _at(document, path) for path in KEYS}
    return {path: value for path, value in found.items() if value not in (None, UNKNOWN, "")}


def _at(document: Mapping[str, Any], path: str) -> Any:
    value: Any = document
    for name in path.split("."):
        if not isinstance(value, Mapping) or name not in value:
            return None
        value = value[name]
    return value


def added_to(text: str, answers: Mapping[str, Any]) -> str:
    """The job's text with the answers in it, every comment kept.

    Raises:
        JobError: it is not TOML, or a section that has to take an answer is not one.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError
    from tomlkit.items import Table
    from tomlkit.toml_document import TOMLDocument

    mark, body = ("\ufeff", text[1:]) if text.startswith("\ufeff") else ("", text)
    parse(body)
    try:
        document = tomlkit.parse(body)
    except TOMLKitError as error:
        raise JobError(
            f"the job's text cannot be changed where it stands ({error}). Type the answers in by hand."
        ) from None
    for path, value in file_answers(answers).items():
        *sections, name = path.split(".")
        table: TOMLDocument | Table = document
        for section in sections:
            below = table.setdefault(section, tomlkit.table())
            if not isinstance(below, Table):
                raise JobError(f"[{section}]: is not a section of its own. Write it as [{'.'.join(sections)}] first.")
            table = below
        _put(table, name, value)
    return mark + tomlkit.dumps(document)


def _put(table: Any, name: str, value: Any) -> None:
    """The value in its place with the comment behind it."""
    import tomlkit

    old = table.get(name)
    item = tomlkit.item(value)
    if old is not None and hasattr(old, "trivia"):
        item.trivia.comment_ws, item.trivia.comment = old.trivia.comment_ws, old.trivia.comment
    table[name] = item
