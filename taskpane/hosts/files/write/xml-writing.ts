/** XML as text, put together from the inside out. */
import { storedText } from "../file-text.js";

export type XmlAttributes = Readonly<Record<string, string | number | undefined>>;

export const XML_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** Attributes without a value are left out; what is inside is XML already. */
export function xml(
  name: string,
  attributes: XmlAttributes = {},
  ...inside: readonly string[]
): string {
  let text = `<${name}`;
  for (const attribute in attributes) {
    const value = attributes[attribute];
    if (value !== undefined)
      text += ` ${attribute}="${typeof value === "number" ? value : xmlText(value)}"`;
  }
  const content = inside.join("");
  return content === "" ? `${text}/>` : `${text}>${content}</${name}>`;
}

/** A list with its count, or nothing where it is empty. */
export function xmlList(name: string, items: readonly string[]): string {
  return items.length === 0 ? "" : xml(name, { count: items.length }, ...items);
}

/** Text of a cell, a note or an attribute. */
export function xmlText(text: string): string {
  const stored = storedText(text);
  return /[&<>"\n\t]/.test(stored)
    ? stored
        .replaceAll("&", "&amp;")
        .replaceAll("<", "&lt;")
        .replaceAll(">", "&gt;")
        .replaceAll('"', "&quot;")
        .replaceAll("\n", "&#10;")
        .replaceAll("\t", "&#9;")
    : stored;
}

/** With the blanks at its ends. */
export function xmlTextElement(text: string): string {
  const attributes = /^\s|\s$/.test(text) ? { "xml:space": "preserve" } : {};
  return xml("t", attributes, xmlText(text));
}

/** `#rrggbb` as files write it. */
export function storedColour(colour: string): { readonly rgb: string } {
  return { rgb: `FF${colour.slice(1).toUpperCase()}` };
}
