/** Enough of XML for a manifest: elements, attributes, text. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  readonly text: string;
}

/** @throws {Error} for elements that do not close in turn. */
export function xmlTree(xml: string): XmlElement {
  interface Open {
    name: string;
    attributes: Record<string, string>;
    children: XmlElement[];
    text: string;
  }
  const root: Open = { name: "", attributes: {}, children: [], text: "" };
  const open: Open[] = [root];
  const bare = xml.replace(/<!--.*?-->|<\?.*?\?>/gs, "");
  for (const [, closing, name = "", rest = "", text = ""] of bare.matchAll(
    /<(\/?)([\w:.]+)([^>]*)>([^<]*)/g,
  )) {
    const parent = open.at(-1) as Open;
    if (closing) {
      if (parent.name !== name) throw new Error(`</${name}> closes <${parent.name}>`);
      open.pop();
      continue;
    }
    const element: Open = {
      name,
      attributes: Object.fromEntries(
        [...rest.matchAll(/([\w:]+)="([^"]*)"/g)].map(([, key, value]) => [key, value]),
      ),
      children: [],
      text: text.trim(),
    };
    parent.children.push(element);
    if (!rest.endsWith("/")) open.push(element);
  }
  const [top] = root.children;
  if (!top || open.length > 1) throw new Error("an element does not close");
  return top;
}

export function descendants(element: XmlElement): readonly XmlElement[] {
  return [element, ...element.children.flatMap(descendants)];
}
