/** The keyboard in an open list of the sheet, which by itself takes the mouse alone. */

export interface ListKeys {
  /** The keyboard is on one of its options. */
  readonly isFocused: boolean;
  /** Undefined for a key that a list does not take; it leaves the list open then. */
  acts(key: string): (() => void) | undefined;
}

const LIST = '[data-u-comp="sheets-dropdown-list"]';

/** The keys of the list that is open; undefined where none is. `close` also gives the keyboard back to the sheet. */
export function keysOfList(close: () => void): ListKeys | undefined {
  const list = document.querySelector(LIST);
  if (!list) return undefined;
  const options = [...(list.lastElementChild?.children ?? [])].filter(
    (option) => option instanceof HTMLElement,
  );
  const at = options.findIndex((option) => option === document.activeElement);
  const focus = (place: number) => {
    const option = options[Math.min(Math.max(place, 0), options.length - 1)];
    if (!option) return;
    list.lastElementChild?.setAttribute("role", "listbox");
    for (const each of options) each.setAttribute("role", "option");
    option.tabIndex = -1;
    option.focus();
  };
  const acts = (key: string) => {
    switch (key) {
      case "ArrowDown":
        return () => focus(at + 1);
      case "ArrowUp":
        return () => focus(at < 0 ? options.length - 1 : at - 1);
      case "Home":
        return () => focus(0);
      case "End":
        return () => focus(options.length - 1);
      case "Enter":
        return () => {
          options[at]?.click();
          close();
        };
      case "Escape":
      case "Tab":
        return close;
      default:
        return undefined;
    }
  };
  return { isFocused: at >= 0, acts };
}
