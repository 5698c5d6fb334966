"""What is expected of fills, and what it takes to decide, by the rules in force."""

from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.verdict import Certainty
from pondapp.models.reading import Steadiness


def certainty(rules: MeasuringAssumptions) -> Certainty:
    """What it takes to call a flow right or wrong."""
    return Certainty(rules.sure, rules.widest_interval, rules.coverage)


def expected_scatter(
    rules: MeasuringAssumptions, steadiness: Steadiness | None = None
) -> ExpectedScatter:
    """The scatter of one fill, before any is timed."""
    by_rule = ExpectedScatter(
        reaction=rules.reaction_sd,
        variation=rules.flow_variation,
        weight=int(rules.scatter_weight),
        surprise=rules.outlier_chance,
    )
    if steadiness is None:
        return by_rule
    return ExpectedScatter(
        by_rule.reaction, by_rule.variation, steadiness.weight, by_rule.surprise,
        steadiness.earlier,
    )  # fmt: skip
