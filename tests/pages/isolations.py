"""A fault isolation sheet in which everything that can stand on one does."""

from __future__ import annotations

from benchleaf.pages.isolation import (
    ActionRow,
    ArrivedRow,
    IsolationView,
    Option,
    PlanGroup,
    PlanLine,
    RepairRow,
    SuspectRow,
    TestRow,
)
from benchleaf.pages.parts import Cell, Link, Share, TitleBlock, words
from benchleaf.pages.prose import prose
from tests.pages.shop import CHOICE, LOCAL, ONLY_G2, shell

ISOLATION = IsolationView(
    shell=shell("../../", "Godwit: does not charge", "What the customer says"),
    title=TitleBlock("Fault isolation", "Godwit: does not charge", (Cell("Cases", "23"), Cell("Plan", "exact"))),
    asks=("Which charger was used?",),
    arrived=(ArrivedRow("liquid", "Liquid", (Option("none", "Dry", set=True), Option("water", "Fresh water"))),),
    tests=(
        TestRow(
            "charge-current", "Charge current", "USB meter, closed, 2 min", "Read the current.",
            (Option("none", "Below 20 mA"), Option("normal", "0.4 to 1.2 A")),
            "Not where it arrived with liquid fresh water.", next=True,
        ),
        TestRow("rail", "Rail", "open, 1 min", "Measure the rail.", (Option("low", "Below 50 Ω"),), only=ONLY_G2),
    ),
    causes=(
        SuspectRow("corroded-port", "Corroded charge port", "seen 14 times", Share("58 %", "58", "38–76 %", "38", "76"),
                   ()),
        SuspectRow("short", "Short", "seen 3 times", Share("15 %", "15"), (words("refer: short hunting, 60 EUR"),)),
    ),
    groups=(
        PlanGroup(
            ONLY_G2, "Godwit G2", "Charge current", "What it shows decides what is worth doing next.",
            (
                ActionRow("test", "charge-current", Link("Charge current", "#test-charge-current"), "", "closed", "2",
                          cost="47.07 EUR", next=True),
                ActionRow("cure", "clean", Link("Clean the port", "../../repairs/godwit/clean.html"),
                          "Corroded charge port", "open", "15 + 8", "4.00 EUR", "43 %", "51.00 EUR"),
                ActionRow("refer", "", Link("Short hunting"), "Whatever is left", cost="60.00 EUR"),
            ),
            (
                PlanLine("0", "1", "", words(Link("Charge current")), "closed", "100 %", "2 min"),
                PlanLine("1", "1.1", "Below 20 mA", words("Short hunting"), "", "52 %", "25 min", "Ends here"),
            ),
            "47.07 EUR and 20 min are to be expected.", "Ways that are seldom gone are not written out.",
        ),
    ),
    repairs=(
        RepairRow(Link("Clean the port"), "Corroded charge port", "23 min", "17.86 EUR", "4.00 EUR", "3 d",
                  "75 %", "54–90 %", "181.86 EUR", "Repair: breaks even where 4 % of the tries work.", ONLY_G2),
    ),
    data='{"groups":[]}',
    variants=CHOICE,
    new_price="640 EUR",
    notes=prose("Counted at this bench."),
    foot=(LOCAL,),
)  # fmt: skip
TOGETHER = IsolationView(
    shell=shell("../../", "Godwit: got wet", "What the customer says"),
    title=TitleBlock("Fault isolation", "Godwit: got wet", ()),
    asks=(),
    arrived=(),
    tests=(),
    causes=(SuspectRow("salt", "Salt on the board", "seen 9 times", None, (words("Wash the board"),)),),
    groups=(PlanGroup(None, "", "", "", (), (), ""),),
    repairs=(),
    data="{}",
    several=True,
    because="The faults come together",
)
