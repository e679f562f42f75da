/** The browser's own storage on this computer. Undefined where the browser blocks it, which it tells by throwing. */
export function browserStorage(): Storage | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
}
