/**
 * What the library's copy on npm, which ends at ExcelApi 1.15, does not hold yet: notes (1.18), and the undo group of a run
 * (1.20). How the group goes over the wire is made up here; that it goes with each request of a run is not.
 */

type Constructor = new (...args: never[]) => object;

interface Helper {
  createPropertyObject(type: Constructor, parent: object, name: string): object;
  createMethodObject(
    type: Constructor,
    parent: object,
    name: string,
    operation: number,
    args: readonly unknown[],
  ): object;
  invokeSetProperty(object: object, name: string, value: unknown, flags: number): void;
}

interface Library {
  OfficeExtension: { ClientObject: Constructor; BatchApiHelper: Helper };
  Excel: {
    Worksheet: { prototype: object };
    run: (options: unknown, batch: unknown) => unknown;
  };
}

/** The library's own flag of a request that waits until a cell is not edited any more. */
const WAITS = 64;
/** Above it the number of the run whose requests are one undo step. */
const GROUP_SHIFT = 12;

export function waitsForEdit(flags: number): boolean {
  return (flags & WAITS) !== 0;
}

/** 0 for a request that is an undo step of its own. */
export function undoGroup(flags: number): number {
  return flags >> GROUP_SHIFT;
}

/** Once, after the library was loaded. */
export function addNewerMembers(): void {
  const { OfficeExtension, Excel } = globalThis as unknown as Library;
  addNotes(OfficeExtension, Excel);
  const { run } = Excel;
  let groups = 0;
  Excel.run = (options, batch) => {
    const { mergeUndoGroup } = (options ?? {}) as { readonly mergeUndoGroup?: boolean };
    if (!mergeUndoGroup || typeof batch !== "function") return run(options, batch);
    groups += 1;
    const group = groups << GROUP_SHIFT;
    return run(options, (context: { _requestFlagModifier: number }) => {
      context._requestFlagModifier |= group;
      return (batch as (given: unknown) => unknown)(context);
    });
  };
}

function addNotes(
  { ClientObject, BatchApiHelper: helper }: Library["OfficeExtension"],
  Excel: Library["Excel"],
): void {
  class Note extends ClientObject {
    get _className() {
      return "Note";
    }
    set width(points: number) {
      helper.invokeSetProperty(this, "Width", points, 0);
    }
    set height(points: number) {
      helper.invokeSetProperty(this, "Height", points, 0);
    }
  }
  class NoteCollection extends ClientObject {
    get _className() {
      return "NoteCollection";
    }
    add(address: string, text: string) {
      return helper.createMethodObject(Note, this, "Add", 0, [address, text]);
    }
  }
  const known = new WeakMap<object, object>();
  Object.defineProperty(Excel.Worksheet.prototype, "notes", {
    configurable: true,
    get(this: object) {
      const notes = known.get(this) ?? helper.createPropertyObject(NoteCollection, this, "Notes");
      known.set(this, notes);
      return notes;
    },
  });
}
