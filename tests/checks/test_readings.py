"""The instrument, or the width, that a finding names cures it: written in, the finding goes."""

from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.make import DOCS, EXAMPLE, TOOLS, check

NAMED = re.compile(r"`with: ([a-z-]+)`")
WIDTH = re.compile(r"at least as wide as ([0-9.]+) °C")
METERS = """\
shunt-meter:  {title: Shunt meter, kind: meter, measures: {voltage: 1 µV to 50 mV, resistance: 1 mΩ to 1 Ω}}
probe-meter:  {title: Probe meter, kind: meter, measures: {voltage: 4 V to 20 V}}
bath-stick:   {title: Bath thermometer, kind: meter, measures: {temperature: -10 °C to 110 °C}, resolution: STEP °C}
"""
VALUE = st.builds(
    "{} {}".format, st.integers(-9999, 9999).map(lambda number: number / 10), st.sampled_from(["µV", "mV", "V"])
)
EXPECTED = st.one_of(VALUE, VALUE.map("≥ {}".format), VALUE.map("< {}".format), VALUE.map("{} ± 3 %".format))


def found(measure: str, instrument: str, expect: str, step: int = 1) -> list[str]:
    """Return what is said of one measurement with the *instrument* that is named."""
    text = (
        f"title: Example\naccess: open\nsteps:\n  - do: Measure it.\n    check: {{measure: {measure}, "
        f"with: {instrument}, expect: '{expect}', if_not: {{stop: It is worn.}}}}\n"
    )
    # Without the thermocouple nobody but the thermometer reads a temperature.
    others = "\n".join(line for line in TOOLS.split("\n") if not line.startswith("thermocouple"))
    tools = others + METERS.replace("STEP", str(step))
    findings = check({EXAMPLE: text, f"{DOCS}/tools.yml": tools}).findings
    return [one.help for one in findings if one.rule == "unmeasurable-value"]


@settings(deadline=None)
@given(EXPECTED, st.sampled_from(["microscope", "multimeter", "shunt-meter", "probe-meter"]))
def test_instrument_that_cures(expect: str, instrument: str) -> None:
    """Any instrument that a finding names reads the value, whatever value is looked for."""
    named = [name for advice in found("voltage", instrument, expect) for name in NAMED.findall(advice)]

    assert [[]] * len(named) == [found("voltage", name, expect) for name in named]


@settings(deadline=None)
@given(st.integers(0, 90), st.integers(0, 9), st.integers(2, 9))
def test_width_that_cures(low: int, width: int, step: int) -> None:
    """Over the width that a finding names, the instrument whose marks were too far apart tells right from wrong."""
    coarse = found("temperature", "bath-stick", f"{low}–{low + width} °C", step)

    wide = [float(named) for advice in coarse for named in WIDTH.findall(advice)]
    fine = [found("temperature", "bath-stick", f"{low}–{low + more} °C", step) for more in wide]

    assert len(coarse) == (0 if width >= step or (width == 0 and low % step == 0) else 1)
    assert [[]] * len(coarse) == fine
