/** Buttons of the pane: one that acts, and one that leads to a cell. */
import type { ButtonHTMLAttributes, ComponentChildren } from "preact";
import type { CellRange } from "../../hosts/host.js";
import { useTools } from "./tools.js";

export interface ButtonProps extends Omit<ButtonHTMLAttributes, "type" | "onClick"> {
  readonly press: (event: MouseEvent) => void;
  readonly children: ComponentChildren;
}

export function Button({ press, ...rest }: ButtonProps) {
  return <button type="button" class="feed-button" {...rest} onClick={press} />;
}

export interface GoToProps extends Omit<ButtonProps, "press"> {
  readonly to: CellRange;
}

export function GoTo({ to, ...rest }: GoToProps) {
  const { host, failed } = useTools();
  return <Button press={() => void host.goTo(to).catch(failed)} {...rest} />;
}
