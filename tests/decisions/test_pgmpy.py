"""Posteriors and shares beside pgmpy, a library of Bayesian networks."""

from __future__ import annotations

import random
import warnings

import pytest

from benchleaf.decisions.bayes import after, posterior
from benchleaf.decisions.shares import shares

with warnings.catch_warnings():  # What pgmpy imports warns of its own future.
    warnings.simplefilter("ignore")
    import pandas as pd
    from pgmpy.estimators import BayesianEstimator
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork

pytestmark = [pytest.mark.outside, pytest.mark.filterwarnings("ignore")]


@pytest.mark.parametrize("seed", range(5))
def test_posterior(seed: int) -> None:
    """After two tests of three outcomes, five causes are as likely as pgmpy's variable elimination says."""
    chance = random.Random(seed)  # noqa: S311  (no secret)
    prior = posterior([chance.random() for _ in range(5)])
    rows = {name: [posterior([chance.random() for _ in range(3)]) for _ in prior] for name in ("first", "second")}
    columns = {name: [[row[outcome] for row in test] for outcome in range(3)] for name, test in rows.items()}
    network = DiscreteBayesianNetwork([("cause", "first"), ("cause", "second")])
    network.add_cpds(TabularCPD("cause", 5, [[share] for share in prior]))
    for name, table in columns.items():
        network.add_cpds(TabularCPD(name, 3, table, evidence=["cause"], evidence_card=[5]))

    asked = VariableElimination(network).query(["cause"], evidence={"first": 2, "second": 0}, show_progress=False)

    assert list(asked.values) == pytest.approx(after(prior, [columns["first"][2], columns["second"][0]]))


@pytest.mark.parametrize("counts", [(7, 2, 1), (14, 6, 3), (1, 30, 0, 2)])
def test_shares(counts: tuple[int, ...]) -> None:
    """Shares are those that pgmpy estimates from the single cases with a Dirichlet prior of ones."""
    cases = pd.DataFrame({"cause": [n for n, count in enumerate(counts) for _ in range(count)]})
    network = DiscreteBayesianNetwork()
    network.add_node("cause")
    names = {"cause": list(range(len(counts)))}
    estimator = BayesianEstimator(network, cases, state_names=names)

    found = estimator.estimate_cpd("cause", prior_type="dirichlet", pseudo_counts=[[1]] * len(counts))

    assert list(found.values) == pytest.approx([share.value for share in shares(counts)])
