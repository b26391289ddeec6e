"""The one kind of error that a user of Witnessmark causes and can mend, and how errors are told."""

from pathlib import Path

WRONG_INPUT, FAULT = 2, 70


class InputError(Exception):
    """Something in the input or its use is wrong, and the user can put it right.

    where: file, row, line or option, as a person would look for it. problem: what is wrong there. remedy: what to do.
    Printed as one line; the command then ends with exit code 2.
    """

    def __init__(self, where: str, problem: str, remedy: str) -> None:
        super().__init__(where, problem, remedy)
        self.where, self.problem, self.remedy = where, problem, remedy

    def __str__(self) -> str:
        return " ".join(f"{self.where}: {self.problem}; {self.remedy}".split())


def told(error: Exception) -> tuple[str, int]:
    """An error as one line, and the exit code that goes with it: wrong input, else a fault of the program itself."""
    if isinstance(error, InputError):
        return str(error), WRONG_INPUT
    if isinstance(error, OSError):
        where = error.filename or "file system"
        problem = f"{where}: {error.strerror or error}; check the file, the disk and your permissions"
        return " ".join(problem.split()), WRONG_INPUT
    return " ".join(_fault(error).split()), FAULT


def _fault(error: Exception) -> str:
    trace = error.__traceback__
    while trace and trace.tb_next:
        trace = trace.tb_next
    place = f"{Path(trace.tb_frame.f_code.co_filename).name} line {trace.tb_lineno}" if trace else "unknown place"
    return f"{place}: {type(error).__name__}: {error}; this is a fault in Witnessmark itself, please report it"
