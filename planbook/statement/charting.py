"""The charts of a plan set in one edition: over a parameter that runs, and over a travel."""

from __future__ import annotations

from collections.abc import Mapping

from planbook.design import Design, Plan
from planbook.measure import Units
from planbook.motion import Travel
from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.models.figures import ChartModel, TravelChartModel
from planbook.statement.sampling import sample_chart
from planbook.statement.stated import ChartData
from planbook.statement.travel_charts import chart_travel


def chart_figures(
    content: Content, design: Design, plan: Plan, units: Units, travels: Mapping[str, Travel]
) -> tuple[Mapping[str, ChartData], tuple[Finding, ...]]:
    """By figure; what has no value is left out, which findings tell. A travel that cannot be run is told elsewhere."""
    charts: dict[str, ChartData] = {}
    found: list[Finding] = []
    for name, model in content.figures.items():
        chart: ChartData | None = None
        findings: tuple[Finding, ...] = ()
        if isinstance(model, ChartModel):
            chart, findings = sample_chart(name, model, design, plan, units)
        elif isinstance(model, TravelChartModel) and str(model.travel) in travels:
            chart, findings = chart_travel(name, model, content, travels[str(model.travel)], units)
        found += findings
        if chart is not None:
            charts[str(name)] = chart
    return charts, tuple(found)
