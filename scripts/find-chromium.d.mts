/** `CHROMIUM_PATH` where it is set, else the first one found. */
export function findChromium(environment?: NodeJS.ProcessEnv): string | undefined;
