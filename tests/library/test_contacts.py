"""What liquids do to solids, against published tables and notes."""

from __future__ import annotations

import pytest

from benchleaf.library.contacts import UNHARMED, Harm, harm, sources
from benchleaf.library.names import BUILT_IN
from benchleaf.library.substances import SUBSTANCES

SOLIDS = sorted(name for name, entry in BUILT_IN.items() if entry.kind == "solid")
# The letters of the table at 25 °C: A no effect or inert, B slight, D softening or swelling, E severe deterioration.
LETTERS = {"A": Harm.NONE, "B": Harm.SLIGHT, "D": Harm.SWELLS, "E": Harm.DESTROYS}


def found(liquid: str, solid: str) -> Harm:
    """Return what is done to *solid* by *liquid*; nothing where the effect is slight at most."""
    seen = harm(liquid, solid)
    return seen.harm if seen else Harm.NONE


@pytest.mark.parametrize("solid", SOLIDS)
@pytest.mark.parametrize("liquid", SUBSTANCES)
def test_every_pair_is_known(liquid: str, solid: str) -> None:
    """Of each liquid on each solid a source is kept, but for the solids that all of them leave alone."""
    assert (solid not in UNHARMED) == bool(sources(liquid, solid))


# Characteristics of Polymers, Table 1.12, effects of corrosive environments on plastics (seen): aliphatic solvents for
# n-heptane, esters and ketones for acetone and ethyl acetate.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("solid", "aliphatic", "esters_and_ketones"),
    [("polycarbonate", "A", "E"), ("abs", "A", "E"), ("pmma", "B", "E"), ("nylon", "A", "A"), ("silicone", "B", "B")],
)
def test_table_of_corrosive_environments(solid: str, aliphatic: str, esters_and_ketones: str) -> None:
    """Nothing is called milder than the table has it."""
    assert LETTERS[aliphatic] <= max(seen.harm for seen in sources("n-heptane", solid))
    assert LETTERS[esters_and_ketones] <= max(seen.harm for seen in sources("acetone", solid))
    assert LETTERS[esters_and_ketones] <= max(seen.harm for seen in sources("ethyl-acetate", solid))


# A polycarbonate sheet maker's technical note (seen): resistant to alcohols but methyl alcohol, water and aliphatic
# hydrocarbons; swollen by acetone and ethyl acetate. J. Appl. Polym. Sci. 1979 (abstract seen): alkanes craze it.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("liquid", "harmed"),
    [
        ("isopropanol", False),
        ("ethanol", False),
        ("deionised-water", False),
        ("acetone", True),
        ("ethyl-acetate", True),
        ("n-heptane", True),
    ],
)
def test_polycarbonate(*, liquid: str, harmed: bool) -> None:
    """Polycarbonate bears alcohols and water, and neither ketones nor esters; where sources differ the worst stands."""
    assert harmed == bool(harm(liquid, "polycarbonate"))


# Argonne National Laboratory, Ask a Scientist (seen): isopropanol crazes PMMA. A sheet maker (seen): ethanol too.
@pytest.mark.outside
@pytest.mark.parametrize("liquid", ["isopropanol", "ethanol"])
def test_alcohol_on_acrylic(liquid: str) -> None:
    """Alcohols craze acrylic."""
    assert Harm.CRAZES == found(liquid, "pmma")


# Sandia, equilibrium swelling of elastomeric materials (abstract seen): silicone doubles in a fuel of alkanes, and
# changes little in acetone.
@pytest.mark.outside
@pytest.mark.parametrize(("liquid", "harm_done"), [("n-heptane", Harm.SWELLS), ("acetone", Harm.NONE)])
def test_swelling_of_silicone(liquid: str, harm_done: Harm) -> None:
    """Alkanes swell silicone, acetone does not to speak of."""
    assert harm_done == found(liquid, "silicone")


@pytest.mark.parametrize("solid", SOLIDS)
def test_water_harms_wood_alone(solid: str) -> None:
    """Water is what can be named in place of anything else, but on wood."""
    assert (solid == "wood") == bool(harm("deionised-water", solid))
