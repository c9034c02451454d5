"""Procedures of the sample shop: an ordinary one, and one with all that can be long."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.pages.prose import prose
from benchleaf.pages.views import (
    Banner,
    Cell,
    Check,
    CloseRequirement,
    Code,
    Data,
    Limit,
    Link,
    Need,
    Needs,
    Phase,
    Picture,
    ProcedureView,
    Row,
    SafetyMessage,
    Sheet,
    State,
    TitleBlock,
    words,
)
from tests.pages.shop import CHOICE, LOCAL, NASTY, ONLY_G2, shell

IGNITION = SafetyMessage(
    hazard="ignition",
    word="WARNING",
    symbol="ignition",
    signal="warning",
    what="Isopropanol vapour and a 350 °C iron.",
    happens="A port that is still wet can flash and burn your hands and face.",
    avoid="Wait the full 2 minutes of W3; keep the open bottle out of reach of the iron.",
    computed=Link("How 60 s was computed", "../../methods.html#drying"),
)
HOT = SafetyMessage(
    hazard="heat",
    word="CAUTION",
    symbol="heat",
    signal="caution",
    what="Hot port.",
    happens="It can burn a finger for about 100 s after the last joint.",
    avoid="Touch nothing on the board until W5 is over.",
)
AUTHORED = SafetyMessage(
    hazard="glass", word="Glass", symbol="glass", what=f"A cracked window sheds splinters {NASTY}.", only=ONLY_G2
)

PROCEDURE = ProcedureView(
    shell=shell("../../", "Clean and re-tin a corroded charge port", "Procedures"),
    title=TitleBlock(
        "Procedure",
        "Clean and re-tin a corroded charge port",
        (
            Cell("Number", "godwit / clean-charge-port"),
            Cell("Revision", "4"),
            Cell("Reviewed", "2026-09-14"),
            Cell("Status", "approved"),
            Cell("For", "Godwit G1, G2", href="../../devices/godwit.html"),
            Cell("Level", "open"),
            Cell("Hands on", "18–24 min", "12–14 min of it opening and closing, shared in a job"),
            Cell("Waiting", "5 min"),
        ),
    ),
    fixes=words(Link("Does not charge", "../../symptoms/no-charge.html")),
    variants=CHOICE,
    needs=Needs(
        conditions=(Need("Wrist strap and mat"), Need("Battery 20–70 %")),
        equipment=(
            Need("Stereo microscope", href="../../tools.html#microscope"),
            Need("Soldering iron", "350 °C", "../../tools.html#iron"),
            Need("Torque driver T4", "7 cN·m", "../../tools.html#driver-small"),
            Need("Multimeter, USB meter"),
        ),
        supplies=(
            Need("Isopropanol", "0.5 mL", "../../materials/isopropanol.html"),
            Need("No-clean flux", "0.1 mL"),
            Need("SAC305 wire", "0.3 g"),
        ),
        spares=(Need("Case seal", "1, always renewed"), Need("Round port gasket", "1", only=ONLY_G2)),
        safety=(
            Need("ignition", "before W4", "#step-tin", "WARNING"),
            Need("hot port", "before W4", "#step-tin", "CAUTION"),
        ),
        work=(Need("Soldering with an iron", "W4"), Need("Leak test", "P1", only=ONLY_G2)),
    ),
    consent=("The seal’s rating is lost until the leak check.",),
    arrives=("Battery sound",),
    sheet=Sheet(
        (
            Phase(
                "O",
                "Open up, to level “open”",
                (
                    Row("O1", "open-opening-1", "Shut the logger down.", after=(State("Power off"),)),
                    Row(
                        "O2",
                        "open-opening-2",
                        "Remove the eight case screws.",
                        limits=(Limit("8 × T4", notes=(words("item A, M1.6 × 5"),)),),
                        after=(State("8 of 8 T4", lead="Tray: "),),
                    ),
                    Row(
                        "O3",
                        "open-opening-3",
                        "Draw the round port’s gasket off.",
                        only=ONLY_G2,
                        cautions=(AUTHORED,),
                        after=(State("gasket", lead="Tray: "),),
                    ),
                    Row("O4", "open-opening-4", "Lift the back shell away.", after=(State("Case open"),)),
                    Row(
                        "O5",
                        "open-opening-5",
                        "Look at the shape of the battery.",
                        check=Check(
                            "battery",
                            "Flat, not swollen",
                            way_on=words(
                                "If not: ", Link("Make a swollen battery safe", "make-swollen-battery-safe.html"), "."
                            ),
                        ),
                    ),
                    Row("O6", "open-opening-6", "Unplug the battery.", after=(State("Battery isolated"),)),
                ),
                note="6 min, shared with other procedures of one job",
            ),
            Phase(
                "W",
                "Work",
                (
                    Row(
                        "W1",
                        "look",
                        "Inspect the charge port under the microscope.",
                        uses=words("with ", Link("stereo microscope", "../../tools.html#microscope")),
                        record="Photograph it before anything is washed off.",
                        check=Check(
                            "look",
                            "Every pad is still on the board.",
                            way_on=words("If not: stop. A pad has gone. Fit a port board instead."),
                        ),
                        after=(State("Evidence recorded"),),
                        data=(Data("record", "photo"),),
                        pictures=(
                            Picture(
                                "../../media/port.svg",
                                "The charge port from the side: A the nine pads, B the shell’s two legs",
                                "A pads, B legs of the shell",
                                "800",
                                "300",
                            ),
                        ),
                    ),
                    Row(
                        "W2",
                        "steps-2",
                        "Brush the port with isopropanol.",
                        uses=words("with ESD brush"),
                        limits=(Limit("0.5 mL", "volume", (words("on 2 cm²"),)),),
                        after=(
                            State(
                                "wet", lead="Port ", tail=", flammable", notes=(words("bench air 5 % of the limit"),)
                            ),
                        ),
                    ),
                    Row(
                        "W3",
                        "steps-3",
                        "Blow the port dry.",
                        limits=(Limit("2 min", "time", (words("dry after 60 s at the latest, by estimate"),)),),
                        after=(State("dry", lead="Port "),),
                    ),
                    Row(
                        "W4",
                        "tin",
                        "Re-tin each pad.",
                        why=f"The old joints are poor at {NASTY} and leach copper.",
                        marks=("Cannot be undone",),
                        cautions=(IGNITION, HOT),
                        limits=(
                            Limit(
                                "350 °C, 2–3 s",
                                "joint",
                                (
                                    words("9 times, 4 s apart · joint limit 360 °C, 5 s"),
                                    words("battery at 38 mm reaches 28 °C (24–36), limit 60 °C"),
                                ),
                            ),
                        ),
                        after=(State("hot", lead="Port "),),
                    ),
                    Row(
                        "W5",
                        "steps-5",
                        "Let the port cool.",
                        limits=(Limit("4 min", "time", (words("cool after 100 s at the latest"),)),),
                        after=(State("cool", lead="Port "),),
                    ),
                    Row(
                        "W6",
                        "steps-6",
                        "Inspect every joint from the side.",
                        check=Check(
                            "look",
                            "Each joint is wetted and none is bridged.",
                            way_on=words(
                                "If not: repeat from ",
                                Link("W4", "#step-tin"),
                                ", once; then ",
                                Link("Replace the charge port", "replace-charge-port.html"),
                                ".",
                            ),
                        ),
                    ),
                    Row(
                        "W7",
                        "steps-7",
                        "Measure from the supply pin to ground.",
                        check=Check(
                            "measure",
                            "> 10 kΩ",
                            (words("resistance, multimeter"),),
                            words("If not: ", Link("Trace a short on the charge rail", "trace-charge-rail-short.html")),
                        ),
                        after=(State("Joints proved"),),
                    ),
                ),
            ),
            Phase(
                "C",
                "Close up",
                (
                    Row("C1", "open-closing-1", "Plug the battery in.", after=(State("Battery joined"),)),
                    Row("C2", "open-closing-2", "Lay a new case seal in the groove."),
                    Row(
                        "C3",
                        "open-closing-3",
                        "Drive the case screws in a star pattern.",
                        limits=(Limit("7 cN·m", "torque", (words("bears 8.2 at most (half of breaking)"),)),),
                        after=(State("empty", lead="Tray "),),
                    ),
                ),
            ),
            Phase(
                "P",
                "Prove",
                (
                    Row(
                        "P1",
                        "prove-1",
                        "Read the charge current from a charger.",
                        check=Check("measure", "0.4–1.2 A", (words("USB meter, charge 20–70 %"),)),
                    ),
                ),
            ),
        ),
    ),
    running="godwit / clean-charge-port · revision 4 · 2026-09-14",
    code=Code("https://procedures.example.invalid/repairs/godwit/clean-charge-port.html", "12", "M4 4h3v1h-3z"),
    close=(
        CloseRequirement("Case screws back", "8 of 8", "item A, M1.6 × 5"),
        CloseRequirement("Case seal renewed", "1 of 1"),
        CloseRequirement("Round port gasket back", "1 of 1", only=ONLY_G2),
        CloseRequirement("Battery joined", "yes"),
    ),
    aftercare=("Dry the port before the next charge.",),
    notes=prose(
        "The port corrodes from the **outer** pads in.\n\n* rinse water is not enough\n* see [methods](x.html)"
    ),
    foot=(LOCAL,),
)


TWELVE = (
    *(("danger", symbol) for symbol in ("battery", "stored-energy")),
    *(("warning", symbol) for symbol in ("fumes", "vapour", "chemical", "biological")),
    *(("caution", symbol) for symbol in ("lead", "sharp", "eye")),
    *(("notice", symbol) for symbol in ("esd", "data", "property")),
)


def _long(number: int) -> Row:
    return Row(
        f"W{number}",
        f"a-step-with-an-id-that-an-author-made-very-long-indeed-{number}",
        "Lift the innermost_shield_of_the_radio_frequency_front_end_module from its frame, a little on each side.",
        limits=(Limit("0.005–0.010 mm·N/(kg·m²)·unbreakable/unbreakable/unbreakable"),),
        after=(State("innermost_shield_of_the_radio_frequency_front_end_module", lead="Tray: "),),
    )


LONG = replace(
    PROCEDURE,
    banner=Banner("draft", "Draft", "Not approved, and not on the public site."),
    title=replace(
        PROCEDURE.title,
        heading="Replace the radio-frequency front-end-module’s electromagneticcompatibilityshieldingframe "
        "and its gasket after sea water has stood in the case for longer than a day",
        cells=(
            Cell("Number", "godwit-field-logger-second-edition / replace-the-radio-frequency-front-end-module-frame"),
            *PROCEDURE.title.cells[1:],
        ),
    ),
    sheet=Sheet(
        (
            Phase(
                "W",
                "Work",
                (
                    replace(
                        _long(1),
                        cautions=tuple(
                            replace(IGNITION, word=signal.upper(), signal=signal, symbol=symbol, hazard=symbol)
                            for signal, symbol in TWELVE
                        ),
                    ),
                    *(_long(number) for number in range(2, 61)),
                ),
            ),
        )
    ),
)
