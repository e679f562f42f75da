/** The sheet follows the system between light and dark, as the page and the pane do. */
import type { Spreadsheet } from "../spreadsheet.js";

const DARK = "(prefers-color-scheme: dark)";

/** @returns its stop */
export function followColourScheme({ api }: Spreadsheet): () => void {
  const dark = matchMedia(DARK);
  const follow = () => api.toggleDarkMode(dark.matches);
  follow();
  dark.addEventListener("change", follow);
  return () => dark.removeEventListener("change", follow);
}
