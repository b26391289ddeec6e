"""What the recording asks its viewers to do: steps, their order, chapters."""

from witnessmark.procedure.find import find_procedure
from witnessmark.procedure.model import Chapter, OrderRemark, Procedure, Remark, Step, ValueAt

__all__ = ["Chapter", "OrderRemark", "Procedure", "Remark", "Step", "ValueAt", "find_procedure"]
