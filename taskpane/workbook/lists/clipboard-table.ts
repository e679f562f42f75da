/** A table as spreadsheets put it on the clipboard: cells parted by tabs, rows by line ends, both allowed inside quotes. */

/** Cells without space around them; a line end inside a cell is a space. Without any tab, semicolons part the cells. */
export function clipboardRows(text: string): readonly (readonly string[])[] {
  const parting = text.includes("\t") ? "\t" : ";";
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = "";
  let isQuoted = false;
  const endCell = () => {
    row.push(plainText(cell));
    cell = "";
  };
  const endRow = () => {
    endCell();
    rows.push(row);
    row = [];
  };
  for (let at = 0; at < text.length; at += 1) {
    const letter = text[at]!;
    if (isQuoted) {
      if (letter !== '"') cell += letter;
      else if (text[at + 1] === '"') cell += text[(at += 1)]!;
      else isQuoted = false;
    } else if (letter === '"' && cell.trim() === "" && isClosed(text, at, parting)) {
      cell = "";
      isQuoted = true;
    } else if (letter === parting) endCell();
    else if (letter === "\n") endRow();
    else if (letter !== "\r") cell += letter;
  }
  if (cell !== "" || row.length > 0) endRow();
  return rows;
}

/** A quote that nothing closes before a cell's end is an inch sign or a slip, and stays. */
function isClosed(text: string, from: number, parting: string): boolean {
  for (let at = from + 1; at < text.length; at += 1) {
    if (text[at] !== '"') continue;
    if (text[at + 1] === '"') at += 1;
    else return ["\n", "\r", parting, undefined].includes(text[at + 1]);
  }
  return false;
}

function plainText(cell: string): string {
  return cell.replace(/\s+/g, " ").trim();
}
