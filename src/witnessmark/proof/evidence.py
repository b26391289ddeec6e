"""What a check looks at."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from witnessmark.procedure.cautions import Caution
from witnessmark.procedure.model import Procedure
from witnessmark.procedure.promises import Owed
from witnessmark.project import Project
from witnessmark.reading.model import Mention, Reading
from witnessmark.specs.table import SpecTable


@dataclass(frozen=True)
class Evidence:
    """A recording read, with its table and procedure."""

    project: Project
    table: SpecTable
    reading: Reading
    procedure: Procedure
    cautions: tuple[Caution, ...]
    owed: tuple[Owed, ...]

    @property
    def mentions(self) -> Sequence[Mention]:
        """All values said, in order."""
        return self.reading.mentions

    @cached_property
    def by_id(self) -> dict[str, Mention]:
        """Mentions by id."""
        return {mention.id: mention for mention in self.reading.mentions}
