"""How a procedure goes: what is joined, live, wet, hot and in the air, for each step, and the picture of it."""

from __future__ import annotations

from benchleaf.derive.outcome import outcome
from benchleaf.derive.timeline import timeline
from benchleaf.pages.compose.timeline import timelines
from tests.dryrun.made import trace

WORK = """\
- {do: Wash it., solvent: {material: isopropanol, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}}
- {do: Blow it dry., use: [air-duster], wait: {for: 5 min, air_speed: 3 m/s}}
- {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s, times: 2}}
- {do: Let it cool., wait: {for: 9 min}}
"""


def test_stages_follow_the_states() -> None:
    """Each step says what is joined, live, wet and hot in it, and how far the air came to its limit."""
    done = trace(WORK)
    stages = {stage.step: stage for stage in timeline(done)}

    assert (True, True) == (stages["open-opening-2"].joined, trace(WORK, fields="arrives: {power: on}\n").start.power)
    assert [(1, 0), (1, 0), (0, 1), (0, 1)] == [
        (stages[f"steps-{n}"].wet, stages[f"steps-{n}"].hot) for n in (1, 2, 3, 4)
    ]
    assert 0 < (stages["steps-1"].air or 0) < 0.1
    assert stages["steps-2"].air is None
    assert not stages["steps-3"].joined


def test_picture_says_the_same_in_words() -> None:
    """Each lane has a bar for each stretch, and says its first and last step beside it."""
    done = trace(WORK)
    numbers = {stage.step: f"W{n}" for n, stage in enumerate(timeline(done), start=1)}
    at = [stage.step for stage in timeline(done)].index("steps-1") + 1

    [picture] = timelines(done.world.device, outcome([done], {}), numbers)
    lanes = {lane.label: lane for lane in picture.lanes}

    assert f"W{at}–W{at + 1}" == lanes["Wet"].words
    assert f"W{at + 2}–W{at + 3}" == lanes["Hot"].words
    assert lanes["Vapour, of its limit"].words.endswith(" %")
    assert 2 == len(lanes["Battery joined"].bars)
    assert lanes["Wet"].words in picture.label
    assert picture.only is None


def test_a_picture_for_each_way_it_goes() -> None:
    """Where variants go otherwise each has its picture, and says whose it is."""
    both = [trace(WORK + "- {do: Look at the second button., only: [w2]}\n", variant=name) for name in ("w1", "w2")]

    first, second = timelines(both[0].world.device, outcome(both, {}), {})

    assert first.only is not None
    assert second.only is not None
    assert ("w1", "w2") == (first.only.variants, second.only.variants)


def test_one_picture_for_what_goes_alike() -> None:
    """Variants that differ in what no lane shows share a picture, and it says nothing of them."""
    both = [trace(WORK, variant=name) for name in ("w1", "w2")]

    [picture] = timelines(both[0].world.device, outcome(both, {}), {})

    assert picture.only is None


def test_a_long_procedure_keeps_its_letters() -> None:
    """However many steps there are, the picture is no wider than a small monitor can show with legible letters."""
    done = trace("".join(f"- {{id: look-{n}, do: Look.}}\n" for n in range(80)))

    [picture] = timelines(done.world.device, outcome([done], {}), {})

    assert int(picture.view_box.split()[2]) <= 1160
