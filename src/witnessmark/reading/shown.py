"""A value as the guide prints it: the manual's, where the table has it."""

from witnessmark.house_style import digits, inches, shown
from witnessmark.reading.model import Mention
from witnessmark.units import dimension


def shown_in_guide(mention: Mention, alone: bool = False) -> str:
    """The row's value of what was measured, in both units; the value said where there is no row; "14 mm" and "T20" for sizes.

    alone: no other stage of the row is told with it; all stages are shown, since which one is meant is not known.
    """
    row = mention.row
    if mention.kind == "tool_size" and mention.size is not None:
        if row is not None and row.tool_size is not None and mention.sure and not mention.rivals:
            return row.tool_size.printed
        size, system = mention.size.size, mention.size.system
        if system == "in":
            return f"{inches(size)} in"
        return f"{digits(size)} mm" if system == "mm" else f"{system}{digits(size)}"
    if row is not None and not row.to_look_up:
        if row.grade is not None:
            return row.grade
        staged = len(row.amounts) > 1 and mention.kind in ("torque", "angle")
        if mention.kind == "tool_size" or not row.amounts:
            return mention.said
        if staged and mention.amount is not None and not (alone and mention.kind == "torque"):
            own = row.amounts[mention.stage] if mention.stage < len(row.amounts) else row.amounts[-1]
            if mention.kind == "angle" and dimension(own.unit) != "angle":
                return shown((mention.amount,))  # half a turn to loosen it is no stage of the tightening
            return shown((own,)) if dimension(own.unit) == dimension(mention.amount.unit) else shown(row.amounts)
        return shown(row.amounts)
    if mention.whole is not None:
        return (
            shown((mention.whole,))
            if mention.whole.low != mention.whole.high
            else shown((mention.amount or mention.whole,))
        )
    return mention.grade or mention.said
