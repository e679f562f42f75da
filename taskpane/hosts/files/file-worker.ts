/** The thread that reads and writes files: the page stays free, and ends the thread when a file takes too long. */
import { FileRefusedError } from "./file-limits.js";
import type { FromFiles, ToFiles } from "./file-messages.js";
import { readXlsx } from "./read/xlsx-reader.js";
import { writeXlsx } from "./write/xlsx-writer.js";

interface Thread {
  onmessage: ((event: { readonly data: ToFiles }) => void) | null;
  postMessage(message: FromFiles): void;
}

const thread = globalThis as unknown as Thread;

thread.onmessage = ({ data }) => {
  try {
    thread.postMessage(
      data.kind === "read"
        ? { kind: "opened", file: readXlsx(data.bytes) }
        : { kind: "written", ...writeXlsx(data.snapshot) },
    );
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const kind = error instanceof FileRefusedError ? "refused" : "fault";
    thread.postMessage({ kind, message });
  }
};
