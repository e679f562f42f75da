/** Of a file below dist/, by its path: `/functions.json`. */
export declare function headersOf(path: string): Readonly<Record<string, string>>;
/** `folder` is the path of the address where dist/ is served: `/downfeed/`. */
export declare function nginxText(folder: string): string;
export declare function webConfigText(): string;
