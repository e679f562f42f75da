/** A picture drawn for the width there is. Text becomes text nodes and attribute values, never markup. */
import { h, type RefObject, type VNode } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { drawingPart } from "../../pictures/parts/drawing.js";
import { PANE_PALETTE } from "../../pictures/parts/palettes.js";
import type { Picture } from "../../pictures/parts/picture.js";
import { attributeText, type SvgPart } from "../../pictures/parts/svg-parts.js";

export function Drawing({ picture, stem }: { readonly picture: Picture; readonly stem: string }) {
  const place = useRef<HTMLDivElement>(null);
  const width = useWidth(place);
  return (
    <div class="feed-picture" ref={place}>
      {width > 0 && drawn(drawingPart(picture, { width, palette: PANE_PALETTE, stem }))}
    </div>
  );
}

/** In whole pixels; 0 while its view is not shown. */
export function useWidth(place: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const sizes = new ResizeObserver(() => setWidth(Math.floor(place.current?.clientWidth ?? 0)));
    if (place.current) sizes.observe(place.current);
    return () => sizes.disconnect();
  }, []);
  return width;
}

export function drawn({ tag, attributes, children }: SvgPart): VNode {
  const given = Object.fromEntries(
    Object.entries(attributes).map(([name, value]) => [name, attributeText(value)]),
  );
  return h(
    tag,
    given,
    ...children.map((child) => (typeof child === "string" ? child : drawn(child))),
  );
}
