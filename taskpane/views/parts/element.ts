/** Building elements. Text only ever becomes a text node, so nothing from a workbook is read as markup. */

export type Attributes = Readonly<Record<string, string | boolean | undefined>>;
export type Child = Node | string | undefined;

export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    made.setAttribute(name, value === true ? "" : value);
  }
  made.append(...children.filter((child) => child !== undefined));
  return made;
}

export function button(
  label: string,
  press: () => void,
  attributes: Attributes = {},
): HTMLButtonElement {
  const made = element("button", { type: "button", class: "feed-button", ...attributes }, label);
  made.addEventListener("click", press);
  return made;
}

/** Code that may be broken behind its commas, when it must. */
export function code(text: string): HTMLElement {
  const made = element("code", { class: "feed-code" });
  for (const part of text.split(/(?<=,)/)) made.append(part, element("wbr"));
  made.lastChild?.remove();
  return made;
}

let lastId = 0;

/** An id for labels and descriptions, fresh in this page. */
export function freshId(stem: string): string {
  lastId += 1;
  return `feed-${stem}-${lastId}`;
}
