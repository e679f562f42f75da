import type { Server } from "node:https";

/** @throws {Error} with a sentence where the port is taken. */
export declare function serve(
  certificate: {
    readonly key: Buffer | string;
    readonly cert: Buffer | string;
  },
  port: number,
): Promise<Server>;
export declare function untrusted(why: string): string;
export declare function toDo(platform: NodeJS.Platform, isStarted: boolean): string;
