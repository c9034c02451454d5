"""Views as the shop would have them, one of each kind, with the odd text that authors write."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.pages.prose import prose
from benchleaf.pages.views import (
    AccessNode,
    AllowedFinding,
    CauseRow,
    Cell,
    ChangeRow,
    DeviceGroup,
    DeviceRow,
    DevicesView,
    DeviceView,
    Fact,
    FastenerRow,
    FirstAction,
    HomeView,
    LimitRow,
    Link,
    MaterialRow,
    MaterialsView,
    MaterialView,
    Matrix,
    MatrixRow,
    Method,
    MethodsView,
    Need,
    PartRow,
    PlanHole,
    PlanLeader,
    PlanOutline,
    PlanView,
    ProceduresView,
    RegisterRow,
    RegisterView,
    Share,
    SharedAllowed,
    SymptomDevice,
    SymptomView,
    TitleBlock,
    ToolRow,
    ToolsView,
    UnansweredRow,
    UseRow,
    VariantRow,
    View,
    words,
)
from tests.pages.benches import BENCH
from tests.pages.isolations import ISOLATION, TOGETHER
from tests.pages.sheets import HOT, IGNITION, LONG, PROCEDURE
from tests.pages.shop import CHOICE, G1, G2, LOCAL, ONLY_G2, ROWS, shell

MATRIX = Matrix(
    (
        Link("Godwit", "devices/godwit.html"),
        Link("Whimbrel", "devices/whimbrel.html"),
        Link("Dunlin", "devices/dunlin.html"),
    ),
    (
        MatrixRow(
            Link("Does not charge", "symptoms/no-charge.html"),
            (
                words(Link("charge current", "symptoms/no-charge.html#godwit"), ", closed, 2 min"),
                words(Link("plug voltage", "symptoms/no-charge.html#whimbrel"), ", closed, 1 min"),
                words(Link("cable swap", "symptoms/no-charge.html#dunlin"), ", closed, 1 min"),
            ),
        ),
        MatrixRow(
            Link("Shows no reading", "symptoms/no-reading.html"),
            (words(Link("probe swap", "symptoms/no-reading.html#godwit"), ", closed, 2 min"), (), ()),
        ),
        MatrixRow(
            Link("Window fogs inside", "symptoms/fogs.html"),
            (words(Link("leak check", "symptoms/fogs.html#godwit"), ", closed, 5 min"), (), words("2 procedures")),
        ),
    ),
)

HOME = HomeView(
    shell=shell("", "What does the customer say?", "What the customer says", search="home"),
    heading="Find the procedure",
    matrix_title="Symptoms by device: the first test",
    matrix=MATRIX,
    changes_title="Reviewed last",
    changes=(
        ChangeRow(
            "2026-11-20",
            Link("godwit / replace-window", "repairs/godwit/replace-window.html"),
            "rev 2 → 3",
            "heat mat 85 → 70 °C; battery held by thermocouple",
        ),
        ChangeRow("2026-11-12", Link("dunlin / replace-display", "repairs/dunlin/replace-display.html"), "rev 6 → 7"),
    ),
    foot=(LOCAL,),
)

SYMPTOM = SymptomView(
    shell=shell("../", "Does not charge", "What the customer says"),
    title=TitleBlock("The customer says", "Does not charge", (Cell("Devices", "3"), Cell("Procedures", "4"))),
    says=("won't charge", "battery stays empty", "dead after a night on the cable"),
    asks=("Which charger was used?", "Has it been wet?"),
    devices=(
        SymptomDevice(
            Link("Godwit field logger", "../devices/godwit.html"),
            "godwit",
            Link("Fault isolation sheet", "../diagnosis/godwit/no-charge.html"),
            (FirstAction(words("Charge current, closed, 2 min"), "47.07 EUR to be expected", ONLY_G2),),
            (
                CauseRow(
                    "Corroded charge port",
                    "seen 14 times",
                    Share("58 %", "58", "38–76 %", "38", "76"),
                    (words(ROWS[0].procedure),),
                ),
                CauseRow("Worn battery", "seen 6 times", Share("27 %", "27"), (words("Replace the battery"),)),
                CauseRow(
                    "Short on the charge rail", "seen 3 times", None, (words("refer: board-level short hunting"),)
                ),
            ),
            ROWS,
            CHOICE,
        ),
        SymptomDevice(Link("Dunlin tablet", "../devices/dunlin.html"), "dunlin", procedures=ROWS[:1]),
    ),
    foot=(LOCAL,),
)

PLAN = PlanView(
    "0 0 1180 1240",
    "40",
    "Eight screws A along the edge of the case, three B and two C on the board",
    "Seen from the opened side. A thin, B dashed, C heavy.",
    (PlanOutline("20", "20", "760", "1200"), PlanOutline("120", "160", "560", "860")),
    (
        *(
            PlanHole(x, y, "18", "thin", "A")
            for x, y in (
                ("60", "60"),
                ("400", "60"),
                ("740", "60"),
                ("60", "620"),
                ("740", "620"),
                ("60", "1180"),
                ("400", "1180"),
                ("740", "1180"),
            )
        ),
        *(PlanHole(x, y, "18", "dashed", "B") for x, y in (("160", "200"), ("640", "200"), ("400", "980"))),
        *(PlanHole(x, y, "18", "heavy", "C") for x, y in (("160", "980"), ("640", "980"))),
    ),
    (
        PlanLeader("758", "60", "860", "60", "A", "880", "74"),
        PlanLeader("658", "200", "860", "230", "B", "880", "244"),
        PlanLeader("658", "980", "860", "980", "C", "880", "994", "over battery"),
    ),
)

DEVICE = DeviceView(
    shell=shell("../", "Godwit field logger", "Devices"),
    title=TitleBlock(
        "Device",
        "Godwit field logger",
        (
            Cell("Battery", "li-ion, 1 cell"),
            Cell("Energy", "10.7 Wh"),
            Cell("Board", "0.8 mm, SAC305"),
            Cell("Keeps out", "IP67, until opened"),
            Cell("Levels", "closed, open, bare-board"),
            Cell("Screws", "8 + 5"),
            Cell("Procedures", "6 approved"),
            Cell("Price", "640 EUR"),
        ),
        "Handheld water-quality logger with a bonded front window.",
    ),
    variants=(VariantRow("g1", G1.title, G1.tell_by), VariantRow("g2", G2.title, G2.tell_by)),
    choice=CHOICE,
    access=AccessNode(
        "closed",
        "As it arrives",
        "0 min",
        children=(
            AccessNode(
                "open",
                "Case open, battery isolated",
                "6 min in, 8 min out",
                words(Link("Small torque driver", "../tools.html#driver-small")),
                ("Shut the logger down.", "Remove the eight case screws.", "Unplug the battery."),
                ("Plug the battery in.", "Drive the case screws in a star pattern."),
                children=(AccessNode("bare-board", "Board out of the case", "4 min in, 5 min out", only=ONLY_G2),),
            ),
        ),
    ),
    fasteners=(
        FastenerRow("A", "Case screw", "M1.6 × 5", "T4", "8", "7 cN·m", "brass, 3 mm", line="thin"),
        FastenerRow("B", "Board screw, short", "M1.6 × 3", "T4", "3", "6 cN·m", line="dashed"),
        FastenerRow(
            "C", "Board screw, long", "M1.6 × 4", "T4", "2", "6 cN·m", notes=("over the battery",), line="heavy"
        ),
    ),
    plan=PLAN,
    limits=(
        LimitRow("Battery", "60 °C", "", "charge port 38 mm", "heat"),
        LimitRow("Charge port", "245 °C", "360 °C, 5 s", "battery 38 mm, window 40 mm", "heat"),
        LimitRow("Front window", "80 °C", "", "charge port 40 mm", "heat", ONLY_G2),
    ),
    parts=(
        PartRow("Case seal", "seal", "part-case-seal", ("used once", "keeps out IP67"), "4 EUR"),
        PartRow("Battery", "battery", "part-battery", (), "20 EUR", "3 d"),
    ),
    symptoms=(
        Link("Does not charge", "../symptoms/no-charge.html"),
        Link("Shows no reading", "../symptoms/no-reading.html"),
    ),
    procedures=ROWS,
    about=prose("Invented for the demonstration."),
    foot=(LOCAL,),
)

PROCEDURES = ProceduresView(
    shell=shell("", "Procedures", "Procedures"),
    title=TitleBlock("List", "Procedures", (Cell("Approved", "14"), Cell("Devices", "3"))),
    groups=(
        DeviceGroup(Link("Godwit field logger", "devices/godwit.html"), "godwit", ROWS),
        DeviceGroup(Link("Any device"), "any", ROWS[:1]),
    ),
)

DEVICES = DevicesView(
    shell=shell("", "Devices", "Devices"),
    title=TitleBlock("List", "Devices", (Cell("Devices", "2"),)),
    rows=(
        DeviceRow(
            Link("Godwit field logger", "devices/godwit.html"),
            "Water-quality logger.",
            "G1, G2",
            "li-ion, 10.7 Wh",
            "6",
        ),
        DeviceRow(Link("Dunlin tablet", "devices/dunlin.html"), "Rugged tablet.", "D1", "li-ion, 37 Wh", "5"),
    ),
)

MATERIAL = MaterialView(
    shell=shell("../", "Isopropanol", "Materials"),
    title=TitleBlock("Material", "Isopropanol", (Cell("Kind", "solvent"), Cell("Data", "built in"))),
    messages=(
        replace(IGNITION, computed=None),
        replace(HOT, word="Chemical", symbol="chemical", signal="", happens=""),
    ),
    facts=(
        Fact("Flash point", "12 °C", "closed cup", words(Link("a published source", "https://example.org/source"))),
        Fact("Lower explosive limit", "2.0 %"),
    ),
    contains=(Need("Water", "10 %"), Need("Isopropanol", "90 %", "isopropanol.html")),
    uses=(
        UseRow(ROWS[0].procedure, ROWS[0].number, "0.5 mL", words(Link("W2", "../repairs/godwit/c.html#step-steps-2"))),
    ),
    about=prose("Keep the bottle *closed*."),
)

MATERIALS = MaterialsView(
    shell=shell("", "Materials", "Materials"),
    title=TitleBlock("List", "Materials", ()),
    rows=(MaterialRow(Link("Isopropanol", "materials/isopropanol.html"), "solvent", "built in", "3 procedures"),),
)

METHODS = MethodsView(
    shell=shell("", "Methods", "Methods"),
    title=TitleBlock("Reference", "Methods", (Cell("Computations", "1"),)),
    methods=(
        Method(
            "battery", "Energy of a battery", "What a pack holds.", ("E = V · Q",), (("V", "voltage"),),
            "exact", "any battery", "none", "3.7 V, 2.9 Ah", (("Energy", "10.73 Wh"),),
        ),
    ),
    own=(Fact("Face loss", "10 W/m²K (8 W/m²K to 14 W/m²K)", "Measured on our own boards."),),
)  # fmt: skip

TOOLS = ToolsView(
    shell=shell("", "Tools", "Tools"),
    title=TitleBlock("List", "Tools", (Cell("Tools", "2"),)),
    rows=(
        ToolRow(
            "iron", "Soldering iron", "iron", "200–450 °C", ("contact 2 mm",), (ROWS[0].procedure, ROWS[1].procedure)
        ),
        ToolRow("pry-wedge", "Plastic wedge", "pry", "", ("does not conduct",)),
    ),
)

REGISTER = RegisterView(
    shell=shell("", "Register", "Register"),
    title=TitleBlock("Register", "Procedure register", (Cell("Approved", "13"), Cell("Drafts", "1"))),
    rows=(
        RegisterRow(
            Link("godwit / clean-charge-port", "repairs/godwit/clean-charge-port.html"),
            "Clean and re-tin a corroded charge port",
            "4",
            "approved",
            "2026-09-14",
            "2027-09-14",
            variants="G1, G2",
            not_for="G3",
            level="open",
            work="Hot-air rework, leak test",
            messages="14 in 32 steps",
            most="at most 3, before O1",
            allowed=(
                AllowedFinding(Link("long-screw", "rules/long-screw.html"), "O2", "Both lengths end in blind bosses."),
            ),
            shared=(Link("1 in level “board”", "#level-godwit-board"),),
        ),
        RegisterRow(
            Link("dunlin / replace-display"),
            "Replace the display",
            "1",
            "draft",
            "2024-11-12",
            "2025-11-12",
            "D1",
        ),
    ),
    shared=(
        SharedAllowed(
            "level-godwit-board",
            Link("Godwit field logger", "devices/godwit.html"),
            "board",
            "Main board out",
            (
                AllowedFinding(
                    Link("long-screw", "rules/long-screw.html"), "opening, step 2", "They are told apart.", "G2"
                ),
            ),
        ),
    ),
    coverage_title="Symptoms answered, by device",
    coverage=MATRIX,
    unanswered=(
        UnansweredRow(
            Link("Godwit field logger", "devices/godwit.html"),
            (Link("Shows no reading", "symptoms/no-reading.html"),),
            (words(Link("Does not charge", "symptoms/no-charge.html"), " on G3"),),
        ),
    ),
    foot=(words("Safety messages: on the variant that is told most."),),
)

SAMPLES: dict[str, View] = {
    "diagnosis/godwit/no-charge.html": ISOLATION,
    "diagnosis/godwit/got-wet.html": TOGETHER,
    "index.html": HOME,
    "symptoms/no-charge.html": SYMPTOM,
    "devices/godwit.html": DEVICE,
    "repairs/godwit/clean-charge-port.html": PROCEDURE,
    "repairs/godwit/long.html": LONG,
    "bench/godwit/clean-charge-port.html": BENCH,
    "procedures.html": PROCEDURES,
    "devices.html": DEVICES,
    "materials/isopropanol.html": MATERIAL,
    "materials.html": MATERIALS,
    "methods.html": METHODS,
    "tools.html": TOOLS,
    "register.html": REGISTER,
}
