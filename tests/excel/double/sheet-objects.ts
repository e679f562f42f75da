/** Sheets of the workbook as the library asks for them, with what lies on them: pictures, charts, notes. */
import { atMost, type Book, open, rectangleAround } from "./book.js";
import { MOST_ROW_POINTS } from "./pretended-excel.js";
import { rangeObject, settingsObject } from "./range-objects.js";
import { ExcelRefusal, NULL_OBJECT, required, type Target } from "./wire.js";

export function sheetObject(book: Book, id: string): Target {
  const sheet = () =>
    required(
      book.state.sheets.find((one) => one.id === id),
      "the sheet",
      "ItemNotFound",
    );
  sheet();
  const settings = (key: string, value: unknown) => open(sheet()).settings.set(key, value);
  return {
    identity: { Id: id },
    values: { Id: () => id, Name: () => sheet().name },
    parts: {
      Protection: () => ({ values: { Protected: () => sheet().isProtected } }),
      FreezePanes: () => ({
        methods: {
          FreezeRows: (count: number) => void settings("FrozenRows", count),
          FreezeAt: (range: string) => void settings("FrozenAt", range),
        },
      }),
      PageLayout: () => ({
        set: (property: string, value: unknown) => void settings(property, value),
        methods: {
          SetPrintTitleRows: (rows: string) => void settings("TitleRows", rows),
        },
        parts: {
          HeadersFooters: () => ({
            parts: {
              DefaultForAllPages: () => ({
                set: (property: string, value: unknown) => void settings(property, value),
              }),
            },
          }),
        },
      }),
      HorizontalPageBreaks: () => ({
        methods: {
          Add: (range: string) => {
            settings(`PageBreak ${range}`, true);
            return {};
          },
        },
      }),
      Shapes: () => ({
        methods: {
          AddImage: (png: string) => {
            const shape: Record<string, unknown> = { png };
            sheet().shapes.push(shape);
            const index = sheet().shapes.length - 1;
            return {
              identity: { Id: `${id}-shape-${index}` },
              set: (property: string, value: unknown) => {
                (sheet().shapes[index] ?? {})[property] = value;
              },
            } satisfies Target;
          },
        },
      }),
      Charts: () => ({
        methods: {
          Add: (kind: string, source: Target, seriesBy: string) => {
            const range = String(source.values?.["Address"]?.());
            sheet().charts.push({ kind, range, seriesBy });
            return chartObject(book, id, sheet().charts.length - 1);
          },
        },
      }),
      Notes: () => ({
        methods: {
          Add: (address: string, text: string) => {
            const { cells } = open(sheet());
            cells.set(address, {
              content: "",
              ...cells.get(address),
              note: text,
            });
            return noteObject(book, id, address);
          },
        },
      }),
    },
    methods: {
      GetRange: (address: string) => rangeObject(book, id, address),
      GetRanges: (addresses: string) => {
        const other = book.pretended.separator === "," ? ";" : ",";
        if (addresses.includes(other))
          throw new ExcelRefusal("InvalidArgument", `${other} parts no areas here`);
        return settingsObject(book, id, addresses.replaceAll(";", ","));
      },
      Calculate: () => {
        book.calculateSheet(sheet());
      },
      GetUsedRangeOrNullObject: () => {
        const filled = [...(book.values.get(sheet().name) ?? [])].flatMap(([at, value]) =>
          value === "" ? [] : [at],
        );
        return filled.length === 0 ? NULL_OBJECT : rangeObject(book, id, rectangleAround(filled));
      },
      Activate: () => {
        book.selected = { sheet: id, address: "A1" };
      },
      Delete: () => {
        if (book.state.sheets.length === 1)
          throw new ExcelRefusal("InvalidOperation", "the last sheet stays");
        book.state.sheets = book.state.sheets.filter((one) => one.id !== id);
      },
    },
  };
}

/** Whatever is set on a chart is kept under its path. */
function chartObject(book: Book, id: string, index: number, path = ""): Target {
  const part = (name: string) => () => chartObject(book, id, index, `${path}${name}.`);
  return {
    identity: { Id: `${id}-chart-${index}` },
    parts: {
      Title: part("Title"),
      Legend: part("Legend"),
      Axes: part("Axes"),
      CategoryAxis: part("CategoryAxis"),
      ValueAxis: part("ValueAxis"),
      Series: part("Series"),
      Format: part("Format"),
      Line: part("Line"),
    },
    methods: { GetItemAt: (at: number) => part(String(at))() },
    set: (property, value) => {
      const sheet = required(
        book.state.sheets.find((one) => one.id === id),
        "the sheet",
      );
      const chart = required(sheet.charts[index], "the chart");
      chart[`${path}${property}`] = value;
    },
  };
}

function noteObject(book: Book, id: string, address: string): Target {
  return {
    identity: { Id: `${id}-note-${address}` },
    set: (property, value) => {
      if (book.pretended.platform === "OfficeOnline")
        throw new ExcelRefusal("NotImplemented", `a note's ${property} cannot be set on the web`);
      atMost(value, MOST_ROW_POINTS);
      book.sheetWithId(id).settings.set(`Note.${property} ${address}`, value);
    },
  };
}
