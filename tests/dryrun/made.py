"""One procedure of the small knowledge base, performed: a test writes its steps and asks for the trace."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.performed import performed
from tests import make

if TYPE_CHECKING:
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Trace

HEAD = """\
title: Example
access: {access}
status: approved
fixes: [no-light]
{fields}steps:
"""


def trace(
    steps: str, *, access: str = "open", fields: str = "", variant: str = "w1", wader: str = make.WADER,
    materials: str = make.MATERIALS,
) -> Trace:  # fmt: skip
    """Return the trace of a procedure with *steps*, written as a YAML list, and with further *fields*, on *variant*."""
    text = HEAD.format(access=access, fields=fields) + "".join(f"  {line}\n" for line in steps.strip().splitlines())
    changes = {f"{make.DOCS}/devices/wader.yml": wader, f"{make.DOCS}/materials.yml": materials}
    base = make.check({make.EXAMPLE: text, **changes}).base
    return next(one for one in performed(base) if one.procedure.id == "example" and one.world.variant == variant)


def after(steps: str, *, access: str = "open", fields: str = "", variant: str = "w1", wader: str = make.WADER) -> State:
    """Return the state at the end of *steps*, before anything is closed."""
    return trace(steps, access=access, fields=fields, variant=variant, wader=wader).handover
