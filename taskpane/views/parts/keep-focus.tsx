/**
 * Keeps the keyboard's place in what is drawn anew: focus stays on its element, or goes to what stands in its place
 * where that is gone, at last to the fallback. Focus that is elsewhere stays elsewhere.
 */
import { Component, type ComponentChildren, createRef, type RefObject } from "preact";

export interface KeepFocusProps {
  readonly fallback: RefObject<HTMLElement | null>;
  readonly children: ComponentChildren;
}

interface Place {
  readonly focused: HTMLElement;
  /** Among all that can be focused. */
  readonly index: number;
}

export class KeepFocus extends Component<KeepFocusProps> {
  private readonly within = createRef<HTMLDivElement>();

  override getSnapshotBeforeUpdate(): Place | undefined {
    const focused = document.activeElement;
    const within = this.within.current;
    return focused instanceof HTMLElement && within?.contains(focused)
      ? { focused, index: focusable(within).indexOf(focused) }
      : undefined;
  }

  override componentDidUpdate(_: unknown, __: unknown, before: Place | undefined): void {
    const within = this.within.current;
    if (!before || !within || document.activeElement === before.focused) return;
    const next = within.contains(before.focused)
      ? before.focused
      : (focusable(within)[before.index] ??
        focusable(within).at(-1) ??
        this.props.fallback.current);
    next?.focus({ preventScroll: true });
  }

  override render() {
    return <div ref={this.within}>{this.props.children}</div>;
  }
}

function focusable(within: HTMLElement): HTMLElement[] {
  return [...within.querySelectorAll<HTMLElement>("button, input, select, summary")].filter(
    (candidate) => candidate.checkVisibility(),
  );
}
