"""The operators, each a kind of slip, in the order in which the report names them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.mutants.operators.amounts import AMOUNTS
from tests.mutants.operators.dropping import DROPPING
from tests.mutants.operators.facts import FACTS
from tests.mutants.operators.missing import MISSING
from tests.mutants.operators.naming import NAMING
from tests.mutants.operators.numbers import NUMBERS
from tests.mutants.operators.ordering import ORDERING
from tests.mutants.operators.routes import ROUTES

if TYPE_CHECKING:
    from tests.mutants.fault import Operator

OPERATORS: tuple[Operator, ...] = (
    *DROPPING, *ORDERING, *NUMBERS, *AMOUNTS, *NAMING, *MISSING, *ROUTES, *FACTS,
)  # fmt: skip
