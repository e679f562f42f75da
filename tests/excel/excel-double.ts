/**
 * A workbook in memory that answers Office.js as Excel does, for as much of Excel as the adapter uses; anything else it
 * refuses by name. Formulas are worked out as in the host in memory. What it knows of Excel is Microsoft's documentation
 * and issues of OfficeDev/office-js, named where they count; no recording of a running Excel stands behind it.
 */
import { cellPlace, rangePlace } from "../../src/plans/addresses.js";
import type { StoredCell } from "../hosts/memory-calculation.js";
import { Book, newSheet } from "./double/book.js";
import { undoGroup, waitsForEdit } from "./double/newer-library.js";
import {
  MOST_BYTES,
  type PretendedExcel,
  USUAL_EXCEL,
  WITHOUT_UNDO,
} from "./double/pretended-excel.js";
import {
  ACTION,
  called,
  EVENT,
  ExcelRefusal,
  NULL_OBJECT,
  PATH,
  queried,
  required,
  type Target,
  wireError,
} from "./double/wire.js";
import { workbookObject } from "./double/workbook-objects.js";
import {
  type Answer,
  answerOffice,
  office,
  tellOffice,
  type WirePath,
  type WireRequest,
  type WireResponse,
} from "./office-library.js";

export { ExcelRefusal } from "./double/wire.js";

/** How the library is reached: in this process, or in a page. */
export interface Way {
  readonly connect: (answer: Answer) => void;
  readonly tell: (event: number, message: unknown) => void;
  /** Whether formulas have values: not all that a budget holds can be worked out in memory. */
  readonly calculates: boolean;
}

export const HERE: Way = {
  connect: answerOffice,
  tell: tellOffice,
  calculates: true,
};

/** By their names: what is read, and what the library says of the objects that it holds on to. */
const CHANGES_NOTHING = /^(Get|_\w+Reference)/;

function mayChange({ Actions, ObjectPaths }: WireRequest): boolean {
  return (
    Actions.some(
      ({ ActionType, Name }) =>
        ActionType === ACTION.set || (ActionType === ACTION.method && !CHANGES_NOTHING.test(Name)),
    ) ||
    Object.values(ObjectPaths).some(
      ({ ObjectPathType, Name }) => ObjectPathType === PATH.method && !CHANGES_NOTHING.test(Name),
    )
  );
}

/** Excel for one test. */
export class ExcelDouble {
  private readonly book: Book;
  /** Every request, as it came. */
  readonly requests: WireRequest[] = [];
  /** Called before each action; what it throws, Excel answers. */
  beforeAction: (what: string) => void = () => undefined;

  constructor(
    namespace: string,
    way: Way = HERE,
    private readonly pretended: PretendedExcel = USUAL_EXCEL,
  ) {
    this.book = new Book(namespace, way, pretended);
    office.excelApi = pretended.excelApi;
    office.platform = pretended.platform;
    way.connect((request, flags = 0) => this.answer(request, flags));
  }

  sheetNames(): readonly string[] {
    return this.book.state.sheets.map(({ name }) => name);
  }

  setting(sheet: string, key: string): unknown {
    return this.book.sheetCalled(sheet).settings.get(key);
  }

  /** What was set on the range that the cell is in. */
  settingAt(sheet: string, path: string, cell: string): unknown {
    const { row, column } = cellPlace(cell);
    const found = [...this.book.sheetCalled(sheet).settings].filter(([key]) => {
      const [, own, range = ""] = /^(\S+) ([A-Z]+\d+(?::[A-Z]+\d+)?)$/.exec(key) ?? [];
      if (own !== path) return false;
      const { top, left, bottom, right } = rangePlace(range);
      return row >= top && row <= bottom && column >= left && column <= right;
    });
    return found.at(-1)?.[1];
  }

  settings(sheet: string): readonly string[] {
    return [...this.book.sheetCalled(sheet).settings.keys()];
  }

  shapes(sheet: string): readonly Record<string, unknown>[] {
    return this.book.sheetCalled(sheet).shapes;
  }

  charts(sheet: string): readonly Record<string, unknown>[] {
    return this.book.sheetCalled(sheet).charts;
  }

  storedAt(sheet: string, address: string): StoredCell | undefined {
    return this.book.sheetCalled(sheet).cells.get(address);
  }

  defineName(name: string, formula: string): void {
    this.book.state.names.push({ name, formula });
  }

  addSheet(name: string): void {
    this.book.state.sheets.push(newSheet(`sheet-${this.book.sheetCount++}`, name));
  }

  /** Behind the adapter's back. */
  fill(sheet: string, address: string, content: string): void {
    this.book.sheetCalled(sheet).cells.set(address, { content });
  }

  /** As the user types it. */
  type(sheet: string, address: string, content: StoredCell["content"]): void {
    this.book.changed(0, () => {
      const { cells } = this.book.sheetCalled(sheet);
      cells.set(address, { ...cells.get(address), content });
    });
  }

  /** As the user does it: nothing on the sheet may be changed from now on. */
  protect(sheet: string): void {
    this.book.sheetCalled(sheet).isProtected = true;
  }

  /** As the user does it before protecting the sheet. */
  unlock(sheet: string, address: string): void {
    this.book.sheetCalled(sheet).unlocked.add(address);
  }

  /** No sheet may be added from now on. */
  protectStructure(): void {
    this.book.isStructureProtected = true;
  }

  /** The user begins to type into a cell. Returns the end of it. */
  editCell(): () => void {
    let end: () => void = () => undefined;
    office.editing = new Promise((resolve) => (end = resolve));
    return () => {
      office.editing = undefined;
      end();
    };
  }

  undo(): void {
    this.book.undo();
  }

  /** How many undos take everything back. */
  undoSteps(): number {
    return this.book.undoSteps();
  }

  /** As the user does it. */
  select(sheet: string, address: string): void {
    const before = this.book.selected;
    this.book.selected = { sheet: this.book.sheetCalled(sheet).id, address };
    this.tellSelection(before);
  }

  private answer(request: WireRequest, flags: number): WireResponse {
    this.requests.push(request);
    const refused = this.refusedWhole(request, flags);
    if (refused) return { Results: [], Error: { ...wireError(refused, ""), ActionIndex: 0 } };
    const before = this.book.selected;
    const group = undoGroup(flags);
    const run = () => this.run(request, group > 0);
    const response = mayChange(request) ? this.book.changed(group, run) : run();
    this.tellSelection(before);
    if (JSON.stringify(response).length <= MOST_BYTES) return response;
    const error = new ExcelRefusal("ResponsePayloadSizeLimitExceeded", "the answer is too large");
    return { Results: [], Error: { ...wireError(error, ""), ActionIndex: 0 } };
  }

  private tellSelection(before: { readonly sheet: string; readonly address: string }): void {
    const { sheet, address } = this.book.selected;
    if (sheet !== before.sheet) this.book.tell(EVENT.activated, { worksheetId: sheet });
    if (sheet !== before.sheet || address !== before.address)
      this.book.tell(EVENT.selection, { address, worksheetId: sheet });
  }

  private refusedWhole(request: WireRequest, flags: number): ExcelRefusal | undefined {
    if (JSON.stringify(request).length > MOST_BYTES)
      return new ExcelRefusal("RequestPayloadSizeLimitExceeded", "the request is too large");
    if (undoGroup(flags) === 0) return undefined;
    const { refusedGroups } = this.pretended;
    const isRefused =
      refusedGroups === "all" || (refusedGroups === "delayed" && waitsForEdit(flags));
    return isRefused ? new ExcelRefusal("GeneralException", "an undo group") : undefined;
  }

  /** What went before a refusal stays done, as in Excel. */
  private run({ Actions, ObjectPaths }: WireRequest, isGrouped: boolean): WireResponse {
    const resolved = new Map<number, Target | typeof NULL_OBJECT>();
    const resolve = (id: number): Target | typeof NULL_OBJECT => {
      const known = resolved.get(id);
      if (known) return known;
      const path = ObjectPaths[id];
      if (!path) throw new ExcelRefusal("InvalidObjectPath", `no path ${id}`);
      const target = this.resolved(path, resolve);
      resolved.set(id, target);
      return target;
    };
    const Results: { ActionId: number; Value: unknown }[] = [];
    for (const [index, action] of Actions.entries()) {
      if (action.ActionType === ACTION.trace) {
        // The library waits for a mark's result to count an event as registered.
        Results.push({ ActionId: action.Id, Value: null });
        continue;
      }
      const path = ObjectPaths[action.ObjectPathId];
      const what = `${path?.T ?? ""}.${action.Name || path?.Name || ""}`;
      try {
        this.beforeAction(what);
        if (isGrouped) this.requireUndo(action, what, path);
        const target = resolve(action.ObjectPathId);
        const Value = this.done(target, action, what, resolve);
        if (Value !== undefined) Results.push({ ActionId: action.Id, Value });
      } catch (error) {
        return {
          Results,
          Error: { ...wireError(error, what), ActionIndex: index },
        };
      }
    }
    return { Results };
  }

  /** @throws {ExcelRefusal} */
  private requireUndo(
    { ActionType, Name }: WireRequest["Actions"][number],
    what: string,
    path: WirePath | undefined,
  ): void {
    const isCut =
      ActionType === ACTION.set && Name === "Formulas" && path?.Name === "GetBoundingRect";
    if (WITHOUT_UNDO.includes(what) || (isCut && this.pretended.refusedGroups === "cut writes"))
      throw new ExcelRefusal("UndoNotSupported", `${what} cannot be undone`);
  }

  private resolved(
    { ObjectPathType, Name, ParentObjectPathId = 0, ArgumentInfo, T }: WirePath,
    resolve: (id: number) => Target | typeof NULL_OBJECT,
  ): Target | typeof NULL_OBJECT {
    if (ObjectPathType === PATH.root) return workbookObject(this.book);
    if (ObjectPathType === PATH.reference)
      return required(this.book.references.get(Name), `the reference ${Name}`)();
    const parent = resolve(ParentObjectPathId);
    if (parent === NULL_OBJECT) return NULL_OBJECT;
    if (ObjectPathType === PATH.property)
      return required(parent.parts?.[Name], `${T}: the part ${Name}`)();
    const method = ObjectPathType === PATH.indexer ? "GetItem" : Name;
    return called(parent, method, ArgumentInfo, resolve) as Target;
  }

  private done(
    target: Target | typeof NULL_OBJECT,
    action: WireRequest["Actions"][number],
    what: string,
    resolve: (id: number) => Target | typeof NULL_OBJECT,
  ): unknown {
    if (target === NULL_OBJECT) return null;
    switch (action.ActionType) {
      case ACTION.instantiate:
        return { ...target.identity };
      case ACTION.query:
        return queried(target, action.QueryInfo?.Select ?? [], what);
      case ACTION.method:
        return called(target, action.Name, action.ArgumentInfo, resolve) ?? undefined;
      case ACTION.set:
        required(target.set, `setting ${what}`)(action.Name, action.ArgumentInfo?.Arguments?.[0]);
        return undefined;
      default:
        throw new ExcelRefusal("ApiNotFound", `${what}: action ${action.ActionType}`);
    }
  }
}
