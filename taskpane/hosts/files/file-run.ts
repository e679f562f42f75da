/** Reading or writing one file in a thread of its own, from the page's side. */
import { FILE_LIMITS, FileRefusedError, requireAtMost } from "./file-limits.js";
import type { FromFiles, ToFiles } from "./file-messages.js";
import type { WorkbookSnapshot } from "./workbook-snapshot.js";
import type { OpenedFile } from "./read/xlsx-reader.js";
import type { WrittenFile } from "./write/xlsx-writer.js";

/** The file as it lies on the user's disk. @throws {FileRefusedError} with a sentence for the user. */
export async function readFile(file: Blob): Promise<OpenedFile> {
  // Before a byte of it is fetched.
  requireAtMost(file.size, FILE_LIMITS.packedBytes, "bytes");
  const bytes = new Uint8Array(await file.arrayBuffer());
  const answer = await asked({ kind: "read", bytes });
  if (answer.kind === "opened") return answer.file;
  throw new FileRefusedError(`The file could not be read: ${messageOf(answer)}`);
}

/** @throws {FileRefusedError} with a sentence for the user. */
export async function writeFile(snapshot: WorkbookSnapshot): Promise<WrittenFile> {
  const answer = await asked({ kind: "write", snapshot });
  if (answer.kind === "written") return answer;
  throw new FileRefusedError(`The workbook could not be written: ${messageOf(answer)}`);
}

function messageOf(answer: FromFiles): string {
  return "message" in answer ? answer.message : answer.kind;
}

/** One question, one answer, and the thread is ended. */
function asked(question: ToFiles): Promise<FromFiles> {
  const worker = new Worker(new URL("./file-worker.ts", import.meta.url));
  let timer: ReturnType<typeof setTimeout> | undefined;
  return new Promise<FromFiles>((done, fail) => {
    timer = setTimeout(
      () =>
        fail(
          new FileRefusedError(
            `${question.kind === "read" ? "Reading" : "Writing"} the file took longer than ${FILE_LIMITS.readMs / 1_000} s and was stopped.`,
          ),
        ),
      FILE_LIMITS.readMs,
    );
    // Also when the thread runs out of memory.
    worker.onerror = ({ message }) => done({ kind: "fault", message });
    worker.onmessage = ({ data }: MessageEvent<FromFiles>) => {
      if (data.kind === "refused") fail(new FileRefusedError(data.message));
      else done(data);
    };
    worker.postMessage(question);
  }).finally(() => {
    clearTimeout(timer);
    worker.terminate();
  });
}
