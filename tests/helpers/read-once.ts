/** A host of which nothing but reading is asked, and every sheet is read once. */
import assert from "node:assert/strict";
import { rangeAddress, rangePlace } from "../../src/plans/addresses.js";
import type { CellRange, Host, HostValue, RangeContent } from "../../taskpane/hosts/host.js";
import type { ReadingHost } from "../../taskpane/workbook/budget-copying.js";

/** Nothing is changed here, so that every sheet is read once; reading is all that is asked of the host. */
export function readOnce(reading: ReadingHost): Host {
  const contents = new Map<string, RangeContent>();
  const whole = async (sheet: string): Promise<RangeContent> => {
    const known = contents.get(sheet);
    if (known) return known;
    const used = rangePlace((await reading.used(sheet)).address);
    const address = rangeAddress({ ...used, top: 0, left: 0 });
    const [content] = await reading.read([{ sheet, address }]);
    assert.ok(content);
    contents.set(sheet, content);
    return content;
  };
  const read = (ranges: readonly CellRange[]) =>
    Promise.all(
      ranges.map(async (range): Promise<RangeContent> => {
        const { top, left, bottom, right } = rangePlace(range.address);
        const { values, formulas, formats } = await whole(range.sheet);
        const cut = <T>(rows: readonly (readonly T[])[], empty: T) =>
          Array.from({ length: bottom - top + 1 }, (_, row) =>
            Array.from(
              { length: right - left + 1 },
              (__, column) => rows[top + row]?.[left + column] ?? empty,
            ),
          );
        return {
          range,
          values: cut<HostValue>(values, ""),
          formulas: cut(formulas, ""),
          formats: cut(formats, "General"),
        };
      }),
    );
  return { ...reading, read } as unknown as Host;
}
