/** The command that gives the pane the whole page, where it stands beside a sheet. */
import { render } from "preact";
import { useEffect, useState } from "preact/hooks";
import { words } from "../../words/words.js";

const said = words.pane;

/** What a page offers that has a sheet beside the pane. */
export interface WholePage {
  isWhole(): boolean;
  set(isWhole: boolean): void;
  /** Called after each change, whoever makes it. Returns its stop. */
  onChange(listener: () => void): () => void;
}

export function wholePageButton(page: WholePage): HTMLElement {
  const place = document.createElement("span");
  render(<WholePageButton page={page} />, place);
  return place;
}

function WholePageButton({ page }: { readonly page: WholePage }) {
  const [isWhole, show] = useState(page.isWhole());
  useEffect(() => page.onChange(() => show(page.isWhole())), [page]);
  return (
    <button type="button" class="feed-link" onClick={() => page.set(!isWhole)}>
      {isWhole ? said.besideSheet : said.wholePage}
    </button>
  );
}
