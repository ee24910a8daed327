"""Why a quantity is refused: what it is, the value as typed, the rule, the next step."""

from transom.errors import TransomError

_LONGEST = 60


class QuantityError(TransomError, ValueError):
    """A text that is not the quantity that is due; the job room puts section and key in front."""

    def __init__(self, what: str, value: object, rule: str, next_step: str) -> None:
        end = f" {next_step[0].upper()}{next_step[1:]}" if rule.endswith("?") else f"; {next_step}"
        super().__init__(f"{what} {quoted(value)}: {rule}{end}")
        self.what = what
        self.value = value
        self.rule = rule
        self.next_step = next_step


class Refusal(Exception):  # noqa: N818 - not an error of its own: `read` turns it into a QuantityError
    """Inside this room: the rule that was broken and the next step, before the value is put in front."""

    def __init__(self, rule: str, next_step: str) -> None:
        super().__init__(rule)
        self.rule = printable(rule)
        self.next_step = printable(next_step)


def printable(text: str) -> str:
    """The text with what a line or a terminal cannot show written as an escape."""
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)


def quoted(value: object) -> str:
    """The value as typed, in quotes, on one line, cut where it is very long."""
    if not isinstance(value, str):
        return repr(value)[:_LONGEST]
    plain = printable(value[: _LONGEST + 1])
    if len(plain) > _LONGEST:
        plain = plain[: _LONGEST - 3] + "..."
    return f"'{plain}'" if '"' in plain and "'" not in plain else f'"{plain}"'
