/** The colours of a drawing. In the pane they are the pane's own variables, so that a drawing follows light and dark. */

export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly line: string;
  /** Power that arrives, and what is measured or solved. */
  readonly flow: string;
  readonly accent: string;
  /** Power that is lost; always hatched as well. */
  readonly loss: string;
  /** What a stage or load accepts; always framed as well. */
  readonly window: string;
  /** Limits; always dashed as well. */
  readonly limit: string;
}

export const PANE_PALETTE: Palette = {
  paper: "var(--feed-paper)",
  ink: "var(--feed-ink)",
  quiet: "var(--feed-quiet)",
  line: "var(--feed-line)",
  flow: "var(--feed-flow)",
  accent: "var(--feed-accent)",
  loss: "var(--feed-lost)",
  window: "var(--feed-window)",
  limit: "var(--feed-danger)",
};

/** Colours on white, as sheets are. */
export const SHEET_PALETTE: Palette = {
  paper: "#ffffff",
  ink: "#1b1f24",
  quiet: "#46525c",
  line: "#c3ccd3",
  flow: "#b9dcd8",
  accent: "#14595a",
  loss: "#a3451b",
  window: "#e4ecf5",
  limit: "#8c0d16",
};
