/** The front over two of its figures: marks told apart by the choice of one figure that varies, with the feed as it is. */
import { useMemo, useState } from "preact/hooks";
import type { Objective } from "../../../src/tradeoffs/objectives.js";
import { choicesAt } from "../../../src/tradeoffs/varied-feed.js";
import type { FoundBudget } from "../../budgets/reading/found-budget.js";
import { frontPicture } from "../../pictures/front/front-picture.js";
import { picturePlan } from "../../pictures/picture-plan.js";
import { type ChartPoint, seriesPath } from "../../pictures/point-chart.js";
import { shownFigure } from "../../tradeoffs/objective-figures.js";
import type { Figures, ToldOption } from "../../tradeoffs/search-messages.js";
import { tradeWords as said } from "../../words/trade-words.js";
import { titleOf } from "../../workbook/found-budgets.js";
import { words } from "../../words/words.js";
import { Choice } from "../parts/budget-choice.js";
import { Button } from "../parts/button.js";
import { useTools } from "../parts/tools.js";
import { PointChart, SERIES_COLOURS } from "./point-chart.js";
import type { ResultProps } from "./result-props.js";

export interface FrontChartProps extends ResultProps {
  readonly budget: FoundBudget;
  /** Number of the feed as it is, where it is among the combinations. */
  readonly present: number | undefined;
  /** The chosen one, which may lie beside the front. */
  readonly option: ToldOption | undefined;
  readonly told: (name: string, figures: Figures) => string;
}

export function FrontChart(props: FrontChartProps) {
  const { budget, job, result, chosen, choose, nameOf, present, option, told } = props;
  const { variations } = job;
  const pairs = useMemo(() => pairsOf(job.objectives), [job]);
  const [pairAt, choosePair] = useState(0);
  const [byAt, chooseBy] = useState(0);
  const [outcome, tell] = useState("");
  const { host, failed } = useTools();
  const [up, across] = pairs[pairAt]!;
  const { choices } = variations[byAt]!;
  const seriesOf = (index: number) =>
    index === present ? choices.length : choicesAt({ variations }, index)[byAt]!;
  const figures = useMemo(() => {
    const all = new Map<number, Figures>(result.front.map(({ index, values }) => [index, values]));
    if (present !== undefined) all.set(present, result.present);
    if (option && !all.has(option.index)) all.set(option.index, option.figures);
    return all;
  }, [result, option]);
  const valueAt = (objective: Objective, of: Figures) => {
    const value = of[job.objectives.indexOf(objective)];
    return value === undefined ? undefined : shownFigure(objective, value);
  };
  const points = [...figures].flatMap(([index, of]): ChartPoint[] => {
    const [x, y] = [valueAt(across, of), valueAt(up, of)];
    if (x === undefined || y === undefined || !Number.isFinite(x + y)) return [];
    return [{ key: String(index), x, y, series: seriesOf(index) }];
  });
  const nameAt = (index: number) =>
    index === present ? `${said.now} (${nameOf(index)})` : nameOf(index);
  const content = useMemo(
    () => ({
      points,
      across: { title: said.inUnits[across], isFromZero: false },
      up: { title: said.inUnits[up], isFromZero: false },
      nameOf: (key: string) => told(nameAt(Number(key)), figures.get(Number(key))!),
      isChosen: (key: string) => key === String(chosen),
    }),
    [result, option, pairAt, byAt, chosen],
  );
  async function put(): Promise<void> {
    const picture = frontPicture({ job, result, chosen: option, up, across, by: byAt });
    const source = { title: titleOf(budget), solvedFor: "" };
    tell(words.pictures.placing(picture.title));
    try {
      const { sheets } = await host.insert(picturePlan(picture, budget, source));
      tell(words.pictures.placed(Object.values(sheets).join("")));
    } catch (error) {
      tell("");
      failed(error);
    }
  }

  const seen = [...new Set(points.map(({ series }) => series))].sort((one, other) => one - other);
  return (
    <section aria-label={said.chart}>
      <h3 class="feed-group-heading">{said.front}</h3>
      {pairs.length > 1 && (
        <Choice
          label={said.axes}
          options={pairs.map((pair, at) => ({ value: String(at), label: pairText(pair) }))}
          chosen={String(pairAt)}
          choose={(at) => choosePair(Number(at))}
        />
      )}
      {variations.length > 1 && (
        <Choice
          label={said.marked}
          options={variations.map(({ name }, at) => ({ value: String(at), label: name }))}
          chosen={String(byAt)}
          choose={(at) => chooseBy(Number(at))}
        />
      )}
      <PointChart name={said.chart} content={content} choose={(key) => choose(Number(key))} />
      <ul class="feed-legend">
        {seen.map((series) => (
          <li key={series}>
            <LegendMark series={series} />
            {choices[series]?.name ?? said.now}
          </li>
        ))}
      </ul>
      <div class="feed-actions">
        <Button press={() => void put()}>{said.toSheet}</Button>
      </div>
      <p class="feed-outcome" role="status">
        {outcome}
      </p>
    </section>
  );
}

type Pair = readonly [up: Objective, across: Objective];

function pairsOf(objectives: readonly Objective[]): readonly Pair[] {
  return objectives.flatMap((up, at) =>
    objectives.slice(at + 1).map((across): Pair => [up, across]),
  );
}

function pairText([up, across]: Pair): string {
  return said.pair(said.objectives[up], said.objectives[across]);
}

const SIZE = 14;
const AREA = 60;

function LegendMark({ series }: { readonly series: number }) {
  return (
    <svg
      class={`feed-series-${series % SERIES_COLOURS}`}
      width={SIZE}
      height={SIZE}
      viewBox={`${-SIZE / 2} ${-SIZE / 2} ${SIZE} ${SIZE}`}
      aria-hidden="true"
    >
      <path class="feed-mark-shape" d={seriesPath(series, AREA)} />
    </svg>
  );
}
