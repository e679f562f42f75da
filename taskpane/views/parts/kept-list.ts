/** Lists that are filled again and again without losing the reader's place: what stays is kept, not made anew. */

const KEY = "feedKey";

/** Children by key and in this order; those no longer named go, new ones are made, all are filled. */
export function putInOrder(
  parent: HTMLElement,
  keys: readonly string[],
  make: () => HTMLElement,
  fill: (child: HTMLElement, index: number) => void,
): void {
  const kept = new Map(
    ([...parent.children] as HTMLElement[]).map((child) => [child.dataset[KEY] ?? "", child]),
  );
  const wanted = keys.map((key) => {
    const child = kept.get(key) ?? make();
    kept.delete(key);
    child.dataset[KEY] = key;
    return child;
  });
  for (const gone of kept.values()) gone.remove();
  wanted.forEach((child, index) => {
    // Moving an element takes its focus away, so one that stands right stays untouched.
    const standing = parent.children[index] ?? null;
    if (standing !== child) parent.insertBefore(child, standing);
    fill(child, index);
  });
}

/**
 * Does the change and puts focus back where it was: on the same element, or, when that is gone, on what stands in its
 * place, at last on `fallback`. Focus that was elsewhere stays elsewhere.
 */
export function keepFocus(within: HTMLElement, fallback: HTMLElement, change: () => void): void {
  const before = document.activeElement;
  const had = before instanceof HTMLElement && within.contains(before);
  const place = had ? focusable(within).indexOf(before) : -1;
  change();
  if (!had || document.activeElement === before) return;
  const next = within.contains(before)
    ? before
    : (focusable(within)[place] ?? focusable(within).at(-1) ?? fallback);
  next.focus({ preventScroll: true });
}

/** What is folded and says so by this, to be found again when it is made anew. */
export const FOLD = "data-fold";

/** Does the change; what its reader had folded open or shut stays so, where it is there again. */
export function keepFolds(within: ParentNode, change: () => void): void {
  const folds = () => within.querySelectorAll(`details[${FOLD}]`);
  const before = new Map(
    [...folds()].map((each) => [each.getAttribute(FOLD), each.hasAttribute("open")]),
  );
  change();
  for (const each of folds()) {
    const was = before.get(each.getAttribute(FOLD));
    if (was !== undefined) each.toggleAttribute("open", was);
  }
}

function focusable(within: HTMLElement): HTMLElement[] {
  return [...within.querySelectorAll<HTMLElement>("button, input, select, summary")].filter(
    (candidate) => candidate.checkVisibility(),
  );
}
