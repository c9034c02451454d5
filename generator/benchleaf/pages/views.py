"""What each kind of page shows: strings only, already formatted, nothing left to decide. One view, one template."""

from __future__ import annotations

from benchleaf.pages.bench import BenchStep, BenchView
from benchleaf.pages.device import (
    AccessNode,
    DeviceView,
    FastenerRow,
    LimitRow,
    PartRow,
    PlanHole,
    PlanLeader,
    PlanOutline,
    PlanView,
    VariantRow,
)
from benchleaf.pages.home import (
    CauseRow,
    ChangeRow,
    HomeView,
    Matrix,
    MatrixRow,
    SymptomDevice,
    SymptomView,
)
from benchleaf.pages.lists import (
    AllowedFinding,
    DeviceGroup,
    DeviceRow,
    DevicesView,
    Fact,
    MaterialRow,
    MaterialsView,
    MaterialView,
    Method,
    MethodsView,
    ProceduresView,
    RegisterRow,
    RegisterView,
    SharedAllowed,
    ToolRow,
    ToolsView,
    UnansweredRow,
    UseRow,
)
from benchleaf.pages.parts import (
    NO_PROSE,
    POLICY,
    POLICY_WHILE_SERVING,
    Banner,
    Cell,
    Link,
    NavItem,
    Only,
    Picture,
    ProcedureRow,
    SafetyMessage,
    Share,
    Shell,
    TitleBlock,
    VariantChoice,
    VariantOption,
    Words,
    words,
)
from benchleaf.pages.sheet import (
    Check,
    CloseRequirement,
    Code,
    Data,
    Limit,
    Need,
    Needs,
    Phase,
    ProcedureView,
    Row,
    Sheet,
    State,
)

__all__ = [
    "NO_PROSE",
    "POLICY",
    "POLICY_WHILE_SERVING",
    "AccessNode",
    "AllowedFinding",
    "Banner",
    "BenchStep",
    "BenchView",
    "CauseRow",
    "Cell",
    "ChangeRow",
    "Check",
    "CloseRequirement",
    "Code",
    "Data",
    "DeviceGroup",
    "DeviceRow",
    "DeviceView",
    "DevicesView",
    "Fact",
    "FastenerRow",
    "HomeView",
    "Limit",
    "LimitRow",
    "Link",
    "MaterialRow",
    "MaterialView",
    "MaterialsView",
    "Matrix",
    "MatrixRow",
    "Method",
    "MethodsView",
    "NavItem",
    "Need",
    "Needs",
    "Only",
    "PartRow",
    "Phase",
    "Picture",
    "PlanHole",
    "PlanLeader",
    "PlanOutline",
    "PlanView",
    "ProcedureRow",
    "ProcedureView",
    "ProceduresView",
    "RegisterRow",
    "RegisterView",
    "Row",
    "SafetyMessage",
    "Share",
    "SharedAllowed",
    "Sheet",
    "Shell",
    "State",
    "SymptomDevice",
    "SymptomView",
    "TitleBlock",
    "ToolRow",
    "ToolsView",
    "UnansweredRow",
    "UseRow",
    "VariantChoice",
    "VariantOption",
    "VariantRow",
    "View",
    "Words",
    "words",
]

View = (
    HomeView
    | SymptomView
    | BenchView
    | DeviceView
    | ProcedureView
    | ProceduresView
    | DevicesView
    | MaterialView
    | MaterialsView
    | MethodsView
    | ToolsView
    | RegisterView
)
