"""The torque that a finding names cures it: written in, the finding goes."""

from __future__ import annotations

import re

import pytest

from tests import make

STINT = """\
title: Stint depth sounder
fasteners:
  lid-screw: {{title: Lid, thread: {thread}, grade: "8.8", count: 4, into: {into}, engagement: 3 mm, torque: {torque}}}
"""


def found(thread: str, into: str, torque: str) -> list[str]:
    """Return what is said of one screw at one torque."""
    text = STINT.format(thread=thread, into=into, torque=torque)
    return [one.help for one in make.check({f"{make.DOCS}/devices/stint.yml": text}).findings]


@pytest.mark.parametrize("thread", ["M1.6", "M2", "M2.5", "M3"])
@pytest.mark.parametrize("into", ["brass", "aluminium", "polycarbonate", "plastic"])
@pytest.mark.parametrize("torque", ["400 cN·m", "4 N·m", "50 lbf·in", "50 kgf.cm"])
def test_torque_that_cures(thread: str, into: str, torque: str) -> None:
    """At the torque that a finding names, in the unit it is written in, nothing is found."""
    [advice] = found(thread, into, torque)
    named = re.search(r"at most (\S+ \S+);", advice)
    assert named is not None

    assert [] == found(thread, into, named[1])
