/**
 * Eight characters over all schedules and all that is asked for, so that a paper and a file can be told to hold the same
 * feed. Empty rows do not count; names, figures, headings and their order do.
 *
 * CRC-32 as in ISO 3309 and ITU-T V.42 (polynomial 0x04C11DB7, reflected): every change of a single character changes
 * it. It tells a mistake, no forgery.
 */
import { BLOCK_NAMES } from "../../../src/schedules/columns.js";
import { BLOCK_AREAS } from "../names.js";
import { errorOf, textOf } from "../reading/range-table.js";
import type { FoundBudget, ReadValue } from "../reading/found-budget.js";

/** Hexadecimal, in capitals. */
export function fingerprint({ ranges }: Pick<FoundBudget, "ranges">): string {
  const blocks = BLOCK_NAMES.map((block) => {
    const rows = ranges[BLOCK_AREAS[block]]?.values ?? [];
    return [block, rows.map((row) => row.map(written)).filter((row) => row.some(Boolean))];
  });
  return crc32(JSON.stringify(blocks)).toString(16).toUpperCase().padStart(8, "0");
}

function written(value: ReadValue): string {
  return errorOf(value) ?? textOf(value);
}

const REFLECTED = 0xedb88320;

/** CRC-32 of the text in UTF-8. */
export function crc32(text: string): number {
  let rest = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = (rest >>> 1) ^ (rest & 1 ? REFLECTED : 0);
  }
  return (rest ^ 0xffffffff) >>> 0;
}
