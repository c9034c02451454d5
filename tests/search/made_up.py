"""A knowledge base of any size, all made up, to measure the search with: words as common and as rare as in text."""

from __future__ import annotations

import random
from itertools import accumulate
from typing import TYPE_CHECKING

from benchleaf.pages.search import SearchEntry

if TYPE_CHECKING:
    from collections.abc import Iterator

_SHOP = (
    "screw shell battery plug cable board port seal window display probe button switch speaker spring clip bracket "
    "connector solder iron flux wick pad braid tape adhesive brush swab isopropanol meter clamp tray driver torque "
    "heat lift slide press hold turn check clean dry wait fit remove loosen tighten unplug measure record wipe cool "
    "warm edge corner side top bottom left right upper lower inner outer front back small large thin flat smooth "
    "level bench hand light gentle slow charge power current voltage signal reading sensor housing cover frame hinge "
    "lens gasket cell pack"
)
_ACTIONS = ("Replace", "Clean", "Refit", "Adjust", "Reseat", "Resolder", "Inspect", "Calibrate", "Dry", "Test")
_PARTS = (
    "battery;charge port;case seal;front window;probe head;power button;display;main board;speaker;"
    "cable gland;fan;side key;hinge;rubber foot;data socket;card slot;status lamp;temperature sensor;"
    "clock cell;antenna"
)
_COMPLAINTS = (
    ("Does not charge", "won't charge;battery stays empty;dead after a night on the cable"),
    ("Does not switch on", "won't turn on;nothing happens when I press the button;completely dead"),
    ("Shows no reading", "no reading;dashes on the screen;reads nothing"),
    ("Dies in the cold", "shuts off outside in winter;battery dies when cold"),
    ("Window fogs inside", "mist behind the glass;foggy screen;steamed up"),
    ("Battery is swollen", "back is bulging;case does not close any more;battery blown up"),
    ("No sound", "can't hear the alarm;silent;speaker does not work"),
    ("Sound crackles", "rattling sound;alarm is scratchy"),
    ("Display stays dark", "black screen;screen is blank but it beeps"),
    ("Reading drifts", "numbers wander;never settles;wrong value"),
    ("Button sticks", "have to press hard;key hangs;button not coming back"),
    ("Water inside", "fell into the river;dropped in water;wet inside"),
)
_FIRST = ("god", "whim", "dun", "cur", "plov", "sand", "turn", "red", "green", "knot", "ruff", "snip", "aver", "tern")
_LAST = ("wit", "brel", "lin", "lew", "er", "piper", "stone", "shank", "et", "ling", "wing", "bill", "foot", "tail")
_ONSETS = "b br c cl d dr f g gr h j l m n p pl r s st t v"
_RIMES = "a all an ar e ect el en er i ick in it o ock on or u um"
_ENDS = ("", "", "", "s", "ed", "ing", "er", "ly", "ion", "al")


def entries(procedures: int, vocabulary: int = 6000, seed: int = 7) -> Iterator[SearchEntry]:
    """Yield entries of a shop with that many procedures, 30 a device, and step text of about 170 words each."""
    dice = random.Random(seed)  # noqa: S311 - made-up text keeps no secret
    words = _words(dice, vocabulary)
    # The n-th most common word comes up about 1/n as often as the first.
    weights = list(accumulate(1 / (rank + 2.7) for rank in range(len(words))))
    devices = _devices(dice, -(-procedures // 30))
    for device, title in devices:
        yield SearchEntry("device", title, f"devices/{device}.html")
        for symptom, (complaint, says) in enumerate(_COMPLAINTS):
            yield SearchEntry(
                "symptom",
                complaint,
                f"symptoms/{_id(complaint)}.html#{device}",
                title,
                tuple(says.split(";")),
                answers=tuple(_procedure(device, symptom * 2 + which) for which in (0, 1)),
            )
    for made in range(procedures):
        device, title = devices[made // 30]
        name, href = _procedure(device, made % 30)
        steps = " ".join(dice.choices(words, cum_weights=weights, k=170))
        heard = dice.choice(_COMPLAINTS)[1].split(";")[0]
        part = _PARTS.split(";")[made % 20]
        yield SearchEntry("procedure", name, href, title, (heard,), (("part", part), ("step", steps)))


def _procedure(device: str, place: int) -> tuple[str, str]:
    """Return the title and the way of a device's procedure."""
    title = f"{_ACTIONS[(place + place // 20) % 10]} the {_PARTS.split(';')[place % 20]}"
    return title, f"repairs/{device}/{_id(title)}.html"


def _devices(dice: random.Random, count: int) -> list[tuple[str, str]]:
    """Return ids and titles of made-up devices."""
    names = [first + last for first in _FIRST for last in _LAST]
    dice.shuffle(names)
    kinds = ("field logger", "water meter", "hand scope", "sound meter", "test set")
    return [(name, f"{name.capitalize()} {kinds[place % 5]}") for place, name in enumerate(names[:count])]


def _words(dice: random.Random, count: int) -> list[str]:
    """Return the shop's words and made-up ones, with endings, the common ones first."""
    made = dict.fromkeys(_SHOP.split())
    while len(made) < count:
        syllables = dice.choices((1, 2, 3), (2, 5, 3))[0]
        root = "".join(dice.choice(_ONSETS.split()) + dice.choice(_RIMES.split()) for _ in range(syllables))
        made.update(dict.fromkeys(root + end for end in dice.sample(_ENDS, 3)))
    return list(made)[:count]


def _id(title: str) -> str:
    """Return the title as it stands in an address."""
    return title.lower().replace(" ", "-")
