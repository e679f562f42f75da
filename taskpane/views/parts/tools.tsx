/** What every view needs of the pane around it, wherever it stands in the view. */
import { type ComponentChildren, createContext, render } from "preact";
import { useContext } from "preact/hooks";
import type { Host } from "../../hosts/host.js";

export interface Tools {
  readonly host: Host;
  /** Tells the reader of a failure that no view expects. */
  readonly failed: (error: unknown) => void;
}

const Context = createContext<Tools | undefined>(undefined);

export function useTools(): Tools {
  const tools = useContext(Context);
  if (!tools) throw new Error("a view is drawn outside the pane");
  return tools;
}

/** Draws the view into its place, or draws it there anew with what it is now given. */
export function drawInto(place: HTMLElement, tools: Tools, view: ComponentChildren): void {
  render(<Context.Provider value={tools}>{view}</Context.Provider>, place);
}
