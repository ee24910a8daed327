"""What can go wrong with what the user, or a table, says. Everyone may use it."""


class TransomError(Exception):
    """Any fault that transom reports in one line and without a traceback."""


class JobError(TransomError, ValueError):
    """One or more faults in what the user stated; `faults` holds one line for each."""

    def __init__(self, *faults: str) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


class TableError(TransomError, ValueError):
    """A material table, or a row of one, that cannot be used."""
