"""A step that is shown by a picture cannot be done by someone who sees an empty frame."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import nearest
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each picture that is not among the files of the knowledge base."""
    for spot in every_step(base):
        picture = spot.step.picture
        if picture and picture.text not in base.media:
            near = nearest(picture.text, base.media)
            how = "Give its path from the folder that holds tools.yml, for example media/back-shell.svg."
            yield Hit(
                picture.place,
                f"There is no picture {picture}: the step would show an empty frame",
                f"Did you mean {near}?" if near else how,
                step=spot.step,
            )


RULE = Rule("missing-picture", Level.ERROR, check)
