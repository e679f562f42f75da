/** The folder that is served. */
export const DIST: string;

/** Builds unless dist/ is already what it would write; one at a time, whoever asks. */
export function buildIfStale(): Promise<void>;
