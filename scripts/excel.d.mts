import type { Server } from "node:https";

export declare function serve(
  certificate: {
    readonly key: Buffer | string;
    readonly cert: Buffer | string;
  },
  port: number,
): Promise<Server>;
export declare function untrusted(why: string): string;
export declare function byHand(manifest: string): string;
