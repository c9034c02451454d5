"""Views as the shop would have them, one of each kind, with the odd text that authors write."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.pages.prose import prose
from benchleaf.pages.views import (
    AccessNode,
    AllowedFinding,
    Banner,
    CauseRow,
    Cell,
    ChangeRow,
    Check,
    CloseRequirement,
    Data,
    DeviceGroup,
    DeviceRow,
    DevicesView,
    DeviceView,
    Fact,
    FastenerRow,
    HomeView,
    Limit,
    LimitRow,
    Link,
    MaterialRow,
    MaterialsView,
    MaterialView,
    Matrix,
    MatrixRow,
    NavItem,
    Need,
    Needs,
    Only,
    PartRow,
    Phase,
    Picture,
    PlanHole,
    PlanLeader,
    PlanOutline,
    PlanView,
    ProcedureRow,
    ProceduresView,
    ProcedureView,
    RegisterRow,
    RegisterView,
    Row,
    SafetyMessage,
    Share,
    Sheet,
    Shell,
    State,
    SymptomDevice,
    SymptomView,
    TitleBlock,
    ToolRow,
    ToolsView,
    UseRow,
    VariantChoice,
    VariantOption,
    VariantRow,
    View,
    words,
)

NASTY = '<2 N·m & "x"'
PLACES = (
    ("What the customer says", "index.html"),
    ("Devices", "devices.html"),
    ("Procedures", "procedures.html"),
    ("Materials", "materials.html"),
    ("Tools", "tools.html"),
    ("Rules", "rules/index.html"),
    ("Register", "register.html"),
)
G1 = VariantOption("g1", "Godwit G1", "Grey lanyard post and no round port on the back.")
G2 = VariantOption("g2", "Godwit G2", "Black lanyard post and a round port on the back.")
CHOICE = VariantChoice("godwit", (G1, G2))
ONLY_G2 = Only("g2", "Godwit G2 only")
LOCAL = words("Estimates carry their range; a measurement beats them.")


def shell(root: str, title: str, here: str, *, search: str = "head") -> Shell:
    """Return what stands around a page of the sample shop."""
    return Shell(
        site_name="Benchleaf",
        site_id="saltmarsh",
        root=root,
        title=title,
        nav=tuple(NavItem(text, root + href, "true" if text == here else "") for text, href in PLACES),
        shop="Saltmarsh Instrument Bench",
        invented="Saltmarsh Instrument Bench, its devices and all data are invented for demonstration.",
        edit=Link("Change this page’s source", "https://example.org/edit/godwit.yml"),
        search=search,
        scripts=("assets/search.js",),
    )


def _procedure_row(title: str, name: str, hands_on: str, *, only: Only | None = None) -> ProcedureRow:
    return ProcedureRow(
        procedure=Link(title, f"../repairs/godwit/{name}.html"),
        number=f"godwit / {name}",
        level="open",
        hands_on=hands_on,
        waiting="5 min",
        revision="4",
        variants="G1, G2",
        fixes=words(Link("Does not charge", "../symptoms/no-charge.html")),
        only=only,
    )


ROWS = (
    _procedure_row("Clean and re-tin a corroded charge port", "clean-charge-port", "18–24 min"),
    _procedure_row("Replace the charge port", "replace-charge-port", "27–39 min"),
    _procedure_row("Replace the round port", "replace-round-port", "20–30 min", only=ONLY_G2),
)

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
        running="godwit / clean-charge-port · revision 4 · 2026-09-14",
    ),
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


def _long(number: int) -> Row:
    return Row(
        f"W{number}",
        f"a-step-with-an-id-that-an-author-made-very-long-indeed-{number}",
        "Lift the innermost_shield_of_the_radio_frequency_front_end_module from its frame, a little on each side in turn.",
        limits=(Limit("0.005–0.010 mm·N/(kg·m²)·unbreakable/unbreakable/unbreakable"),),
        after=(State("innermost_shield_of_the_radio_frequency_front_end_module", lead="Tray: "),),
    )


LONG = replace(
    PROCEDURE,
    banner=Banner("draft", "Draft", "Not approved, and not on the public site."),
    title=replace(
        PROCEDURE.title,
        heading="Replace the radio-frequency front-end-module’s electromagneticcompatibilityshieldingframe and its gasket "
        "after sea water has stood in the case for longer than a day",
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
                            for signal, symbol in zip(
                                ("danger", "danger", "warning", "warning", "warning", "caution", "caution", "caution")
                                + ("notice", "notice", "notice", "caution"),
                                ("battery", "stored-energy", "fumes", "vapour", "chemical", "lead", "sharp", "eye")
                                + ("esd", "data", "property", "magnet"),
                                strict=True,
                            )
                        ),
                    ),
                    *(_long(number) for number in range(2, 61)),
                ),
            ),
        )
    ),
)

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
            words("charge current, closed, 2 min"),
            (
                CauseRow("Corroded charge port", Share("58 %", "58", "38–76 %"), (words(ROWS[0].procedure),)),
                CauseRow("Worn battery", Share("27 %", "27", "12–46 %"), (words("Replace the battery"),)),
                CauseRow("Short on the charge rail", Share("15 %", "15"), (words("refer: board-level short hunting"),)),
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
        PartRow("Case seal", "seal", ("used once", "keeps out IP67"), "4 EUR"),
        PartRow("Battery", "battery", (), "20 EUR", "3 d"),
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
            level="open",
            allowed=(
                AllowedFinding(Link("long-screw", "rules/long-screw.html"), "O2", "Both lengths end in blind bosses."),
            ),
        ),
        RegisterRow(
            Link("dunlin / replace-display"),
            "Replace the display",
            "1",
            "draft",
            "2024-11-12",
            "2025-11-12",
            "overdue",
            "D1",
        ),
    ),
    coverage_title="Symptoms answered, by device",
    coverage=MATRIX,
)

SAMPLES: dict[str, View] = {
    "index.html": HOME,
    "symptoms/no-charge.html": SYMPTOM,
    "devices/godwit.html": DEVICE,
    "repairs/godwit/clean-charge-port.html": PROCEDURE,
    "repairs/godwit/long.html": LONG,
    "procedures.html": PROCEDURES,
    "devices.html": DEVICES,
    "materials/isopropanol.html": MATERIAL,
    "materials.html": MATERIALS,
    "tools.html": TOOLS,
    "register.html": REGISTER,
}
