/** Notes of a sheet as a file holds them: their text in one part, the boxes that show them in another. */
import { cellPlace } from "../../../../src/plans/addresses.js";
import type { CellSnapshot } from "../workbook-snapshot.js";
import { xml, XML_HEAD, xmlTextElement } from "./xml-writing.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

export interface Noted {
  readonly at: string;
  readonly note: string;
}

export function notedCells(cells: readonly CellSnapshot[]): readonly Noted[] {
  return cells.flatMap(({ at, note }) => (note === undefined ? [] : [{ at, note }]));
}

export function commentsPart(noted: readonly Noted[]): string {
  const comments = noted.map(({ at, note }) =>
    xml(
      "comment",
      { ref: at, authorId: 0 },
      // As a run, which is the only text that some readers find in a note.
      xml("text", {}, xml("r", {}, xmlTextElement(note))),
    ),
  );
  return (
    XML_HEAD +
    xml(
      "comments",
      { xmlns: MAIN },
      xml("authors", {}, xml("author")),
      xml("commentList", {}, ...comments),
    )
  );
}

const SHAPE =
  '<v:shapetype id="note" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>';
const FIRST_SHAPE = 1_025;

/** In the older drawing language that notes are still shown by. */
export function noteBoxesPart(noted: readonly Noted[]): string {
  const boxes = noted.map(({ at }, index) => {
    const { row, column } = cellPlace(at);
    // Left column and offset, top row and offset, right, bottom: beside the cell, three columns by five rows.
    const anchor = [column + 1, 10, Math.max(0, row - 1), 5, column + 4, 10, row + 4, 5].join(",");
    return (
      `<v:shape id="note${FIRST_SHAPE + index}" type="#note" style="position:absolute;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto">` +
      '<v:fill color2="#ffffe1"/><v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto"/>' +
      `<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>${anchor}</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>${row}</x:Row><x:Column>${column}</x:Column></x:ClientData></v:shape>`
    );
  });
  return `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">${SHAPE}${boxes.join("")}</xml>`;
}
