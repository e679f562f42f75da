/** One picture in the pane: its drawing under its title, its finding in words, its numbers, and what takes it away. */
import { useMemo, useState } from "preact/hooks";
import type { WorkbookPlan } from "../../../src/plans/sheet-plan.js";
import type {
  Picture,
  PictureCell,
  PictureColumn,
  PictureOffer,
} from "../../pictures/parts/picture.js";
import { words } from "../../words/words.js";
import { Choice } from "../parts/budget-choice.js";
import { Button, GoTo } from "../parts/button.js";
import { Drawing } from "../parts/drawing-view.js";
import { freshId } from "../parts/element.js";
import { Table } from "../parts/table.js";
import { useTools } from "../parts/tools.js";
import { copyPicture, savePicture } from "./picture-files.js";

const said = words.pictures;

export interface PictureFigureProps {
  readonly offer: PictureOffer;
  readonly planOf: (picture: Picture) => WorkbookPlan;
  /** A sheet of more that the picture is about, and what its button says. */
  readonly more?: { readonly label: string; readonly plan: WorkbookPlan } | undefined;
  /** Begins the name of a file. */
  readonly budget: string;
}

export function PictureFigure({
  offer: { id, variants },
  planOf,
  more,
  budget,
}: PictureFigureProps) {
  const { host, failed } = useTools();
  const stem = useMemo(() => freshId(id), []);
  const [chosen, choose] = useState("");
  const [outcome, tell] = useState<{ readonly text: string; readonly sheet?: string }>();
  const variant = variants.find(({ name }) => name === chosen) ?? variants[0];
  if (!variant) return null;
  const { picture } = variant;

  async function act(now: string, action: () => Promise<string>): Promise<void> {
    tell({ text: now });
    try {
      tell({ text: await action() });
    } catch (error) {
      tell(undefined);
      failed(error);
    }
  }

  const kinds = host.can("saved files") ? (["svg", "png"] as const) : [];

  async function put(plan: WorkbookPlan, what: string, placed: (sheet: string) => string) {
    tell({ text: said.placing(what) });
    try {
      const { sheets } = await host.insert(plan);
      const [sheet = ""] = Object.values(sheets);
      tell({ text: placed(sheet), sheet });
    } catch (error) {
      tell(undefined);
      failed(error);
    }
  }

  return (
    <section class="feed-section" aria-labelledby={`${stem}-title`}>
      <h3 class="feed-picture-title" id={`${stem}-title`}>
        {picture.title}
      </h3>
      {variants.length > 1 && (
        <Choice
          label={said.choose[id]}
          options={variants.map(({ name }) => ({ value: name, label: name }))}
          chosen={variant.name}
          choose={(name) => {
            choose(name);
            tell(undefined);
          }}
        />
      )}
      <figure class="feed-figure">
        <Drawing picture={picture} stem={stem} />
        <figcaption class="feed-quiet">{picture.alternative}</figcaption>
        <details class="feed-block">
          <summary>{said.numbers}</summary>
          <div class="feed-wide">
            <NumbersTable picture={picture} />
          </div>
        </details>
      </figure>
      <div class="feed-actions">
        <Button press={() => void put(planOf(picture), picture.title, said.placed)}>
          {said.place}
        </Button>
        <Button press={() => void act("", () => copyPicture(picture))}>{said.copy}</Button>
        {kinds.map((type) => (
          <Button key={type} press={() => void act("", () => savePicture(picture, budget, type))}>
            {said.save[type]}
          </Button>
        ))}
        {more && (
          <Button press={() => void put(more.plan, more.plan.title, said.matters.placed)}>
            {more.label}
          </Button>
        )}
      </div>
      <div class="feed-outcome" role="status">
        {outcome && `${outcome.text} `}
        {outcome?.sheet !== undefined && (
          <GoTo to={{ sheet: outcome.sheet, address: "A1" }}>{said.goTo(outcome.sheet)}</GoTo>
        )}
      </div>
    </section>
  );
}

function NumbersTable({ picture: { title, table } }: { readonly picture: Picture }) {
  return (
    <Table
      caption={said.caption(title)}
      headings={table.columns.map(({ heading }) => heading)}
      rows={table.rows.map((cells) =>
        cells.map((cell, index) => ({ text: cellText(cell, table.columns[index]) })),
      )}
    />
  );
}

/** As the sheet shows it with the same format. */
function cellText(value: PictureCell, { format = "" }: Partial<PictureColumn> = {}): string {
  if (typeof value === "string") return value;
  const [, always = "", perhaps = ""] = /\.(0*)(#*)/.exec(format) ?? [];
  return new Intl.NumberFormat(undefined, {
    minimumFractionDigits: always.length,
    maximumFractionDigits: always.length + perhaps.length,
    ...(format.endsWith("%") && { style: "percent" }),
    useGrouping: false,
  }).format(value);
}
