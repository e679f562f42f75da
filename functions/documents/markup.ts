/** HTML as text, for pages that are written and not built in a browser: everything is escaped on its way in. */
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
  return markupList(items.map(text));
}

/** @param items Markup already. */
export function markupList(items: readonly string[]): string {
  return items.length === 0
    ? ""
    : `<ul>\n${items.map((item) => `<li>${item}</li>`).join("\n")}\n</ul>`;
}

export function table(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): string {
  const headRow =
    head.length === 0
      ? ""
      : `<thead><tr>${head.map((cell) => `<th scope="col">${text(cell)}</th>`).join("")}</tr></thead>`;
  const body = rows
    .map((row) => `<tr>${row.map((cell) => `<td>${text(cell)}</td>`).join("")}</tr>`)
    .join("\n");
  return `<div class="wide" role="group" tabindex="0" aria-label="${text(caption)}"><table><caption>${text(caption)}</caption>${headRow}<tbody>\n${body}\n</tbody></table></div>`;
}
