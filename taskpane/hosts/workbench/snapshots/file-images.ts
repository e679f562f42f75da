/** Pictures between the workbench and a file. */
import type { ImageSnapshot, ImageType } from "../../files/workbook-snapshot.js";

/** As the spreadsheet stores one. */
export interface StoredImage {
  readonly source?: string;
  readonly transform?: {
    readonly width?: number | undefined;
    readonly height?: number | undefined;
  } | null;
  readonly sheetTransform?: { readonly from: StoredCorner };
  /** Ours: the spreadsheet keeps it with the rest and shows it nowhere. */
  readonly description?: string;
}

interface StoredCorner {
  readonly column: number;
  readonly columnOffset: number;
  readonly row: number;
  readonly rowOffset: number;
}

const SOURCE = /^data:image\/(png|jpeg|gif);base64,([A-Za-z0-9+/=]+)$/;

/** Nothing for a kind that files have not. */
export function imageSnapshot(stored: StoredImage): ImageSnapshot | undefined {
  const [, type, base64] = SOURCE.exec(stored.source ?? "") ?? [];
  const { width, height } = stored.transform ?? {};
  const from = stored.sheetTransform?.from;
  if (!type || !base64 || !width || !height || !from) return undefined;
  return {
    row: from.row,
    column: from.column,
    offsetX: Math.round(from.columnOffset),
    offsetY: Math.round(from.rowOffset),
    width: Math.round(width),
    height: Math.round(height),
    type: type as ImageType,
    base64,
    ...(stored.description && { alternative: stored.description }),
  };
}

/** Sizes of the sheet's lines, in pixels. */
export interface LineSizes {
  width(column: number): number;
  height(row: number): number;
}

export function storedImage(
  image: ImageSnapshot,
  ids: {
    readonly drawingId: string;
    readonly unitId: string;
    readonly subUnitId: string;
  },
  sizes: LineSizes,
) {
  const { row, column, offsetX, offsetY, width, height } = image;
  const right = reached(column, offsetX + width, sizes.width);
  const bottom = reached(row, offsetY + height, sizes.height);
  const still = { flipX: false, flipY: false, angle: 0, skewX: 0, skewY: 0 };
  const sheetTransform = {
    ...still,
    from: { column, columnOffset: offsetX, row, rowOffset: offsetY },
    to: {
      column: right.line,
      columnOffset: right.offset,
      row: bottom.line,
      rowOffset: bottom.offset,
    },
  };
  return {
    ...ids,
    drawingType: 0,
    imageSourceType: "BASE64",
    source: `data:image/${image.type};base64,${image.base64}`,
    ...(image.alternative && { description: image.alternative }),
    transform: {
      ...still,
      left: before(column, sizes.width) + offsetX,
      top: before(row, sizes.height) + offsetY,
      width,
      height,
    },
    sheetTransform,
    axisAlignSheetTransform: sheetTransform,
  };
}

function before(line: number, size: (line: number) => number): number {
  let sum = 0;
  for (let each = 0; each < line; each += 1) sum += size(each);
  return sum;
}

/** The line that a length from the start of another one ends in. */
function reached(
  from: number,
  length: number,
  size: (line: number) => number,
): { readonly line: number; readonly offset: number } {
  let [line, offset] = [from, length];
  while (offset > size(line)) {
    offset -= size(line);
    line += 1;
  }
  return { line, offset };
}
