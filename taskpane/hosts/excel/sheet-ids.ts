/** Sheets by Excel's own ids, which is all that an event tells of the sheet that it is about. */
export interface SheetIds {
  /** To be read with whatever the context asks for next; gives what takes them over after that. */
  load(context: Excel.RequestContext): () => void;
  /** As it was called when they were read last. */
  nameOf(id: string): string | undefined;
}

export function sheetIds(): SheetIds {
  let names: ReadonlyMap<string, string> = new Map();
  return {
    load(context) {
      const { worksheets } = context.workbook;
      worksheets.load("items/id,items/name");
      return () => {
        names = new Map(worksheets.items.map(({ id, name }) => [id, name]));
      };
    },
    nameOf: (id) => names.get(id),
  };
}
