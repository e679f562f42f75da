/** Orders readings that may overtake each other: each call returns a function that tells whether it is still the last. */
export function latestOnly(): () => () => boolean {
  let last = 0;
  return () => {
    last += 1;
    const own = last;
    return () => own === last;
  };
}

/** Calls once things have been quiet for a while. */
export function debounced(
  action: () => void,
  milliseconds: number,
): { request(): void; cancel(): void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  return {
    request() {
      clearTimeout(timer);
      timer = setTimeout(action, milliseconds);
    },
    cancel() {
      clearTimeout(timer);
    },
  };
}
