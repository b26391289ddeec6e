"""The one kind of error that a user of Witnessmark causes and can mend."""


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
