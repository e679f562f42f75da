/** Charts of a plan as Excel's own, drawn from cells of their sheet. Series differ by dashes and marks, not by colour alone. */
import type { PlanChart } from "../../../src/plans/sheet-plan.js";
import { POINTS_PER_PIXEL } from "./styles.js";

const TYPES = {
  line: "Line",
  column: "ColumnClustered",
  scatter: "XYScatterLinesNoMarkers",
} as const satisfies Record<PlanChart["kind"], `${Excel.ChartType}`>;

const DASHES = ["Continuous", "Dash", "Dot"] as const;
const MARKS = ["Circle", "Triangle", "Diamond", "Square"] as const;

/** @param cell Where its top left corner comes to lie, with its place loaded. */
export function addChart(sheet: Excel.Worksheet, plan: PlanChart, cell: Excel.Range): void {
  const { kind, range, title, chartSize, series } = plan;
  const [width, height] = chartSize;
  const chart = sheet.charts.add(TYPES[kind], sheet.getRange(range), "Columns");
  chart.name = title;
  chart.title.text = title;
  chart.legend.position = "Bottom";
  chart.displayBlanksAs = "NotPlotted";
  chart.left = cell.left;
  chart.top = cell.top;
  chart.width = width * POINTS_PER_PIXEL;
  chart.height = height * POINTS_PER_PIXEL;
  chart.axes.categoryAxis.title.text = plan.categoryTitle;
  chart.axes.valueAxis.title.text = plan.valueTitle;
  if (plan.logarithmic) chart.axes.valueAxis.scaleType = "Logarithmic";
  series.forEach((look, index) => {
    if (look !== "bars") markSeries(chart.series.getItemAt(index), look, index);
  });
}

function markSeries(series: Excel.ChartSeries, look: "line" | "points", index: number): void {
  if (look === "line") {
    series.markerStyle = "None";
    series.format.line.lineStyle = DASHES[index % DASHES.length] ?? "Continuous";
    return;
  }
  series.format.line.lineStyle = "None";
  series.markerStyle = MARKS[index % MARKS.length] ?? "Circle";
  series.markerSize = 7;
}
