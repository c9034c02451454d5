"""The page to work by of the sample shop: a step with all that one can have, with the odd text that authors write."""

from __future__ import annotations

from markupsafe import Markup

from benchleaf.pages.bench import (
    Answer,
    Asked,
    BenchStep,
    BenchView,
    Emergency,
    Question,
    Size,
    Standing,
    Timed,
    Trouble,
)
from benchleaf.pages.prose import prose
from benchleaf.pages.views import CloseRequirement, Limit, Link, Picture, words
from tests.pages.sheets import IGNITION
from tests.pages.shop import NASTY, ONLY_G2, shell

TIN = BenchStep(
    step="tin", anchor="step-tin", phase="W", number="W4", do=f"Re-tin each pad {NASTY}.", marks=("Cannot be undone",),
    uses="with Soldering iron", why="Heat spreads in the pause.", records=("photo", "note", "reading"),
    cautions=(IGNITION,), standing=(Standing("WARNING", "warning", "battery", "The battery is joined.", ONLY_G2),),
    limits=(("Joint", Limit("350 °C, 2–3 s", "joint", (words("9 times, 4 s apart"),))),),
    check=Asked("look", "Look", "Each joint is wetted.", ("shows that it is dry",), way_on="repeat from W4, then stop"),
    timer=Timed("dwell", "Each touch", "2–3 s"), pictures=(Picture("../../media/port.svg", "The port"),),
    after="W5 Let the port cool.", state="Battery: isolated. Liquid: dry.", only=ONLY_G2,
)  # fmt: skip
MEASURE = BenchStep(
    step="other/steps-1", anchor="step-other--steps-1", phase="W", number="W1", do="Measure.", elsewhere="Another one",
    check=Asked("reading", "Resistance, Multimeter", "> 10 kΩ", (), "kΩ", "stop. It leaks."),
)  # fmt: skip
BENCH = BenchView(
    shell=shell("../../", "Clean a charge port", "Procedures"),
    device="godwit", procedure="clean-charge-port", number="godwit / clean-charge-port", revision="4",
    heading=f"Clean a charge port {NASTY}", what="Godwit field logger",
    read=Link("Procedure to read", "../../repairs/godwit/clean-charge-port.html"),
    questions=(Question("variant", "Which one is it?", (Answer("g1", "Godwit G1", "Grey post."), Answer("g2", "G2"))),),
    takes=(words("If it met water: ", Link("Wash", "wash.html")),),
    steps=(TIN, MEASURE),
    close=(CloseRequirement("Case screws back", "8 of 8", "item A", ONLY_G2),),
    emergency=Emergency(prose("Stop."), (Trouble("stop-1", "A burn", prose("1. Cool it.")),)),
    sizes=(Size("near", "0.8 m"), Size("usual", "1.2 m")),
    scripts=(),
    way=Markup("{}"),
    hands_back="Handed back without: Battery.",
    aftercare=("Rinse it.",),
)  # fmt: skip
