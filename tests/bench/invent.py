"""An invented knowledge base of any size, the same at every run: what a shop of many procedures would hold."""

from __future__ import annotations

from dataclasses import dataclass, replace
from random import Random

# What one device's procedures are about: id, its word in a sentence, what is measured there, what fails.
PLACES = (
    ("charge-port", "charge port", "the supply pin"),
    ("display-socket", "display socket", "the backlight pin"),
    ("probe-socket", "probe socket", "the signal pin"),
    ("antenna-socket", "antenna socket", "the centre pin"),
    ("speaker-socket", "speaker socket", "the drive pin"),
    ("sensor-socket", "sensor socket", "the reference pin"),
    ("data-socket", "data socket", "the receive pin"),
    ("keypad-socket", "keypad socket", "the first row pin"),
    ("lamp-socket", "lamp socket", "the lamp pin"),
)
WORKS = (
    ("clean", "Clean and re-tin a corroded", "corrosion"),
    ("reflow", "Rework cracked joints of the", "a crack"),
    ("restore", "Restore worn contacts of the", "wear"),
)
FAULTS = (
    ("dead", "{} does nothing", "nothing happens at the {}", "the {} is dead since the weekend"),
    ("wobbly", "{} works at an angle only", "I have to hold the {} just so", "wobbly {}, comes and goes"),
    ("warm", "{} gets warm", "the {} gets hot when I use it", "it smells warm near the {}"),
    ("wet", "{} failed after rain", "left in the rain, then the {} stopped", "water came out of the {}"),
)
_NAMES = ("Avocet", "Bittern", "Curlew", "Dotterel", "Eider", "Fulmar", "Gadwall", "Heron", "Ibis", "Jacana")
_SERIES = ("field logger", "tide gauge", "buoy beacon", "flow meter", "weather head")
_WHY = (
    "What is seen now cannot be seen again once the joint has been touched.",
    "A joint that looks dull may still be sound; one that moves never is.",
    "Salt draws water from the air, so what is left behind goes on working at night.",
    "The pads of this board lift easily, and a lifted pad costs more than the whole repair.",
    "The next person has only what is written here to go by.",
    "Flux that stays under the shell creeps to the battery plug within a winter.",
    "A reading taken on a warm board is lower than the same reading an hour later.",
)
_NOTES = (
    "On units from the first winter the {} stands closer to the edge. Mask the edge as well.",
    "Seen most often on units that were stored with an empty battery in a damp shed.",
    "If the {} has been worked on before, look for the other shop's flux under the shield.",
    "The pads of the {} are small. A fresh tip and good light save more time than they cost.",
)


@dataclass(frozen=True, slots=True)
class Step:
    """One step: the sentence and its action in YAML, and what a page says about it besides."""

    do: str
    action: str = ""
    limit: str = ""
    after: str = ""
    if_not: str = ""
    why: str = ""
    use: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Procedure:
    """One procedure of 15 steps."""

    id: str
    title: str
    fixes: tuple[str, ...]
    revision: int
    reviewed: str
    steps: tuple[Step, ...]
    prove: tuple[Step, ...]
    notes: str


@dataclass(frozen=True, slots=True)
class Device:
    """One device with up to 25 procedures."""

    id: str
    title: str
    procedures: tuple[Procedure, ...]


@dataclass(frozen=True, slots=True)
class Symptom:
    """One complaint, with the customers' words for it."""

    id: str
    title: str
    says: tuple[str, ...]


TOOLS = {
    "microscope": "Stereo microscope",
    "esd-brush": "ESD brush",
    "air-duster": "Filtered air duster",
    "iron": "Soldering iron",
    "multimeter": "Multimeter",
    "usb-meter": "USB meter",
}
MATERIALS = {
    "isopropanol": ("Isopropanol", "0.5 mL"),
    "no-clean-flux": ("No-clean flux", "0.1 mL"),
    "sac305-wire": ("SAC305 wire", "0.3 g"),
}
A_DEVICE = 25  # procedures

SWOLLEN = "The battery is swollen. Take it outside and ask for help."
FULL = "Close up and run it down first."
OPENING = (
    Step("Shut the unit down.", "power: off", after="Power off"),
    Step(
        "Remove the eight case screws.",
        "unscrew: {case-screw: 8}",
        "8 × T4, item A, M1.6 × 5",
        after="Tray: 8 × A",
    ),
    Step("Lift the back shell away.", "remove: back-shell", after="Back shell: out"),
    Step("Unplug the battery.", "unplug: battery-plug", after="Battery isolated"),
    Step(
        "Look at the shape of the battery.",
        f"check: {{battery: shape, if_not: {{stop: {SWOLLEN}}}}}",
        "Flat, no swelling",
        if_not=f"stop. {SWOLLEN}",
    ),
    Step(
        "Read the charge of the battery.",
        f"check: {{battery: charge, with: pack-tester, expect: ≤ 50 %, if_not: {{stop: {FULL}}}}}",
        "≤ 50 %",
        if_not=f"stop. {FULL}",
    ),
)
CLOSING = (
    Step("Plug the battery in.", "plug: battery-plug", after="Battery joined"),
    Step("Lay a new case seal in the groove.", "replace: case-seal", after="Case seal: new"),
    Step("Set the back shell down.", "fit: back-shell", after="Back shell: in"),
    Step(
        "Drive the case screws in a star pattern.",
        "screw: {case-screw: 8}",
        "7 cN·m, 8 × T4, item A, M1.6 × 5",
        after="Tray empty",
    ),
)


def symptoms() -> tuple[Symptom, ...]:
    """Return the complaints that all devices share."""
    return tuple(
        Symptom(f"{place}-{fault}", title.format(word.capitalize()), tuple(saying.format(word) for saying in says))
        for place, word, _ in PLACES
        for fault, title, *says in FAULTS
    )


def devices(count: int) -> tuple[Device, ...]:
    """Return devices that have *count* procedures between them."""
    chance = Random(count)  # noqa: S311 - a fixed seed gives the same base at every run
    made = []
    for number, first in enumerate(range(0, count, A_DEVICE)):
        name = _NAMES[number % len(_NAMES)]
        series = _SERIES[number // len(_NAMES) % len(_SERIES)]
        procedures = [_procedure(index, chance) for index in range(min(A_DEVICE, count - first))]
        made.append(Device(f"{name.lower()}-{number + 1}", f"{name} {number + 1} {series}", tuple(procedures)))
    return tuple(made)


def _procedure(index: int, chance: Random) -> Procedure:
    place, word, pin = PLACES[index % len(PLACES)]
    work, title, cause = WORKS[index // len(PLACES)]
    return Procedure(
        id=f"{work}-{place}",
        title=f"{title} {word}",
        fixes=tuple(f"{place}-{fault[0]}" for fault in chance.sample(FAULTS, 2)),
        revision=chance.randint(1, 9),
        reviewed=f"2026-{chance.randint(1, 10):02}-{chance.randint(1, 28):02}",
        steps=_work(place, word, pin, cause, chance),
        prove=_proof(word),
        notes=chance.choice(_NOTES).format(word),
    )


def _work(place: str, word: str, pin: str, cause: str, chance: Random) -> tuple[Step, ...]:
    """Return the twelve steps of the work itself, five of them with a reason."""
    joints, seconds = chance.randint(4, 12), chance.randint(2, 4)
    whole = f"Every pad of the {word} is still on the board."
    steps = (
        Step(
            f"Inspect the {word} under the microscope for {cause}.",
            f"check: {{look: {whole}, if_not: {{stop: A pad has gone.}}}}, record: photo",
            f"{whole} Photograph it.",
            after="Photographed",
            if_not="stop. A pad has gone.",
            use=("microscope",),
        ),
        Step(f"Mask the parts beside the {word}.", f"work: {{kind: mask, on: {place}}}"),
        Step(
            f"Brush the {word} with isopropanol.",
            f"solvent: {{material: isopropanol, volume: 0.5 mL, on: {place}, area: 2 cm²}}",
            "0.5 mL isopropanol on 2 cm²",
            after=f"{word.capitalize()}: wet",
            use=("esd-brush",),
        ),
        Step(
            f"Blow the {word} dry.",
            "wait: {for: 2 min, until: dry, air_speed: 3 m/s}",
            "2 min, until dry, air at 3 m/s",
            after=f"{word.capitalize()}: dry",
            use=("air-duster",),
        ),
        Step(f"Scrape the pads of the {word} until they shine.", f"work: {{kind: scrape, on: {place}}}"),
        Step(
            f"Re-tin each pad of the {word}.",
            f"id: tin, solder: {{part: {place}, tool: iron, at: 350 °C, for: 2–{seconds} s, times: {joints}, "
            "pause: 4 s}, apply: {no-clean-flux: 0.1 mL, sac305-wire: 0.3 g}",
            f"350 °C, 2–{seconds} s, {joints} times, 4 s apart; joint limit 360 °C, 5 s; 0.1 mL flux, 0.3 g wire",
            after=f"{word.capitalize()}: hot",
        ),
        Step(
            f"Let the {word} cool.",
            "wait: {for: 4 min, until: cool}",
            "4 min, until cool",
            after=f"{word.capitalize()}: cool",
        ),
        Step(f"Wipe the flux from around the {word}.", f"work: {{kind: wipe, on: {place}}}"),
        Step(
            "Inspect every joint from the side.",
            "check: {look: Each joint is wetted and none is bridged., "
            "if_not: {repeat: tin, then: {stop: Ask for help.}}}",
            "Each joint is wetted and none is bridged.",
            if_not="repeat from W6, then stop. Ask for help.",
            use=("microscope",),
        ),
        Step(
            f"Measure from {pin} to ground.",
            'check: {measure: resistance, with: multimeter, expect: "> 10 kΩ", if_not: {stop: The rail is shorted.}}',
            "> 10 kΩ, resistance, multimeter",
            if_not="stop. The rail is shorted.",
        ),
        Step(f"Lift the mask from beside the {word}.", f"work: {{kind: align, on: {place}}}"),
        Step("Let the vapour of the flux clear.", "wait: {for: 5 min, until: dry}", "5 min, until dry"),
        Step(
            f"Photograph the finished {word}.",
            "record: photo",
            "Photograph it.",
            after="Photographed",
            use=("microscope",),
        ),
    )
    reasons = dict(zip(chance.sample(range(len(steps)), 5), chance.sample(_WHY, 5), strict=True))
    return tuple(replace(step, why=reasons.get(number, "")) for number, step in enumerate(steps))


def _proof(word: str) -> tuple[Step, ...]:
    """Return the three steps that prove the complaint gone."""
    firm = f"The {word} holds firm and nothing flickers."
    return (
        Step(
            "Read the charge current from a charger.",
            "check: {measure: current, with: usb-meter, expect: 0.4–1.2 A, if_not: {stop: Go on with the diagnosis.}}",
            "0.4–1.2 A, current, USB meter",
            if_not="stop. Go on with the diagnosis.",
        ),
        Step(
            f"Move the plug in the {word} gently to all sides.",
            f"check: {{look: {firm}, if_not: {{stop: Open it again.}}}}",
            firm,
            if_not="stop. Open it again.",
        ),
        Step("Leave the unit on for the time of a walk along the dike.", "wait: {for: 10 min}", "10 min"),
    )
