/** A form that opens in a view and goes away when it is answered: its fault and two buttons; Escape leaves it. */
import type { ComponentChildren, RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

export interface AnsweredFormProps {
  /** Its name where no heading of its own says it. */
  readonly label?: string;
  /** Told at once; none where the fields tell of their own faults. */
  readonly fault?: string;
  /** "" where there is nothing to be written yet. */
  readonly yes: string;
  readonly no: string;
  readonly isReady?: boolean;
  readonly submit: () => void;
  readonly leave: () => void;
  /** Where the keyboard goes when the form is gone. */
  readonly home: FocusHome;
  readonly children: ComponentChildren;
}

export type FocusHome = () => HTMLElement | null | undefined;

export function AnsweredForm(props: AnsweredFormProps) {
  const { label, fault, yes, no, isReady = true, submit, leave, home, children } = props;
  const form = useRef<HTMLFormElement>(null);
  useOpened(form, home);
  return (
    <form
      class="feed-row-form"
      ref={form}
      aria-label={label}
      onSubmit={(event) => {
        event.preventDefault();
        submit();
      }}
      onKeyDown={({ key }) => {
        if (key === "Escape") leave();
      }}
    >
      {children}
      {fault !== undefined && (
        <p class="feed-fault" role="alert">
          {fault}
        </p>
      )}
      <div class="feed-actions">
        {yes !== "" && (
          <button type="submit" class="feed-button feed-main" aria-disabled={!isReady}>
            {yes}
          </button>
        )}
        <button type="button" class="feed-button" onClick={leave}>
          {no}
        </button>
      </div>
    </form>
  );
}

/**
 * A part that was opened stands in sight, as far as it fits. Once it is gone the keyboard is at home; where it was
 * elsewhere meanwhile it stays there.
 */
export function useOpened(part: RefObject<HTMLElement | null>, home: FocusHome): void {
  const latest = useRef(home);
  latest.current = home;
  useLayoutEffect(() => {
    part.current?.scrollIntoView({ block: "nearest" });
    return () => {
      if (!part.current?.contains(document.activeElement)) return;
      // What stands in its place is drawn by then.
      queueMicrotask(() => latest.current()?.focus());
    };
  }, []);
}
