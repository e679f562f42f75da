/** Markup of the report as text: everything from a workbook is escaped on its way in. */
export function text(content: string): string {
  return content
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

export function heading(level: 2 | 3, content: string): string {
  return `<h${level}>${text(content)}</h${level}>`;
}

export function paragraph(content: string): string {
  return `<p>${text(content)}</p>`;
}

export function list(items: readonly string[]): string {
  return `<ul>${items.map((item) => `<li>${text(item)}</li>`).join("")}</ul>`;
}

export function table(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): string {
  const headRow = head.length
    ? `<thead><tr>${head.map((cell) => `<th scope="col">${text(cell)}</th>`).join("")}</tr></thead>`
    : "";
  const body = rows
    .map(
      (row) =>
        `<tr>${row.map((cell) => `<td>${text(cell)}</td>`).join("")}</tr>`,
    )
    .join("\n");
  return `<table><caption>${text(caption)}</caption>${headRow}<tbody>${body}</tbody></table>`;
}
