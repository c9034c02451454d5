"""What is inside an opened device, under the name by which rules know it."""

from benchleaf.dryrun.inside import in_place, is_inside, is_open

__all__ = ["in_place", "is_inside", "is_open"]
