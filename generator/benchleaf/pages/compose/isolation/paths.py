"""Where the sheet of a diagnosis stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.model.diagnosis import Diagnosis


def path_of(diagnosis: Diagnosis) -> str:
    """Return the path of the sheet of *diagnosis* below the site's folder."""
    return f"diagnosis/{diagnosis.device}/{diagnosis.symptom}.html"
