/** The parts of a packed file, inflated under a count: neither sizes nor names in the file are believed. */
import { Inflate } from "fflate";
import { FILE_LIMITS, FileRefusedError, requireAtMost } from "../file-limits.js";

/** Bytes by name, without a slash in front. */
export type Parts = ReadonlyMap<string, Uint8Array>;

interface Entry {
  readonly name: string;
  readonly isDeflated: boolean;
  readonly packedSize: number;
  readonly size: number;
  readonly checksum: number;
  readonly offset: number;
}

const END_SIGNATURE = 0x06054b50;
const ENTRY_SIGNATURE = 0x02014b50;
const LOCAL_SIGNATURE = 0x04034b50;
const END_BYTES = 22;
const ENTRY_BYTES = 46;
const LOCAL_BYTES = 30;
const LONGEST_COMMENT = 0xffff;
/** Stands where the number is in an extension for larger files. */
const ELSEWHERE = 0xffffffff;
const ENCRYPTED = 1;
const STORED = 0;
const DEFLATED = 8;
const CHUNK_BYTES = 16_384;
const OLD_OFFICE_FILE = 0xe011cfd0;

/** @throws {FileRefusedError} */
export function unpack(bytes: Uint8Array): Parts {
  requireAtMost(bytes.length, FILE_LIMITS.packedBytes, "bytes");
  if (bytes.length === 0) throw new FileRefusedError("The file is empty.");
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length > 4 && view.getUint32(0, true) === OLD_OFFICE_FILE)
    throw new FileRefusedError(
      "The file is protected by a password or in the old .xls format. Save it as .xlsx without a password first.",
    );
  const entries = entriesOf(view, bytes);
  const parts = new Map<string, Uint8Array>();
  const taken = new Set<string>();
  let left: number = FILE_LIMITS.unpackedBytes;
  for (const entry of entries) {
    // Names are compared without case, as spreadsheets do: a second part of the same name could hide from one reader.
    const known = entry.name.toLowerCase();
    if (taken.has(known)) throw damaged(`${entry.name} is in it twice`);
    taken.add(known);
    const part = contentOf(view, bytes, entry, left);
    left -= part.length;
    if (!entry.name.endsWith("/")) parts.set(entry.name, part);
  }
  return parts;
}

function entriesOf(view: DataView, bytes: Uint8Array): readonly Entry[] {
  const end = endOf(view);
  const count = view.getUint16(end + 10, true);
  requireAtMost(count, FILE_LIMITS.parts, "parts");
  let at = view.getUint32(end + 16, true);
  const entries = Array.from({ length: count }, () => {
    if (at + ENTRY_BYTES > end || view.getUint32(at, true) !== ENTRY_SIGNATURE)
      throw damaged("its table of contents is incomplete");
    const nameLength = view.getUint16(at + 28, true);
    const entry = entryAt(view, at, bytes, nameLength);
    at += ENTRY_BYTES + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    return entry;
  });
  requireApart(entries, bytes.length);
  return entries;
}

function entryAt(view: DataView, at: number, bytes: Uint8Array, nameLength: number): Entry {
  const nameStart = at + ENTRY_BYTES;
  const name = new TextDecoder().decode(bytes.subarray(nameStart, nameStart + nameLength));
  requirePlainName(name);
  const method = view.getUint16(at + 10, true);
  if ((view.getUint16(at + 8, true) & ENCRYPTED) !== 0)
    throw new FileRefusedError("The file is encrypted. Save it without a password first.");
  if (method !== STORED && method !== DEFLATED)
    throw damaged(`${name} is packed in a way that is not used for workbooks`);
  const entry: Entry = {
    name,
    isDeflated: method === DEFLATED,
    checksum: view.getUint32(at + 16, true),
    packedSize: view.getUint32(at + 20, true),
    size: view.getUint32(at + 24, true),
    offset: view.getUint32(at + 42, true),
  };
  if ([entry.packedSize, entry.size, entry.offset].includes(ELSEWHERE))
    throw new FileRefusedError(
      "The file is packed in the format for very large files, which the workbench does not open.",
    );
  return entry;
}

function endOf(view: DataView): number {
  const last = view.byteLength - END_BYTES;
  for (let at = last; at >= Math.max(0, last - LONGEST_COMMENT); at -= 1)
    if (view.getUint32(at, true) === END_SIGNATURE) return at;
  throw new FileRefusedError("The file is not an .xlsx workbook, or it was cut off.");
}

function requirePlainName(name: string): void {
  const isPlain =
    name !== "" &&
    !/[\\:\0]|^\//.test(name) &&
    !name.split("/").some((step) => step === ".." || step === ".");
  if (!isPlain) throw damaged("it contains an unsafe path");
}

/** Several entries over the same bytes unpack to far more than the file holds. */
function requireApart(entries: readonly Entry[], length: number): void {
  let free = 0;
  for (const { name, offset, packedSize } of [...entries].sort(
    (one, other) => one.offset - other.offset,
  )) {
    if (offset < free || offset + LOCAL_BYTES + packedSize > length)
      throw damaged(`${name} overlaps another entry`);
    free = offset + LOCAL_BYTES + packedSize;
  }
}

function contentOf(view: DataView, bytes: Uint8Array, entry: Entry, left: number): Uint8Array {
  const { name, offset, packedSize } = entry;
  if (view.getUint32(offset, true) !== LOCAL_SIGNATURE)
    throw damaged(`${name} is not where it should be`);
  const start =
    offset + LOCAL_BYTES + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  if (start + packedSize > bytes.length) throw damaged(`${name} is cut off`);
  const packed = bytes.subarray(start, start + packedSize);
  if (!entry.isDeflated) requireAtMost(packed.length, left, "bytes unpacked");
  const part = entry.isDeflated ? inflated(packed, name, left) : packed;
  if (part.length !== entry.size || checksumOf(part) !== entry.checksum)
    throw damaged(`${name} does not hold what the file says`);
  return part;
}

function inflated(packed: Uint8Array, name: string, left: number): Uint8Array {
  const chunks: Uint8Array[] = [];
  let length = 0;
  let isWhole = false;
  const inflate = new Inflate((chunk, isLast) => {
    length += chunk.length;
    if (length > left)
      throw new FileRefusedError(
        `The file unpacks to more than ${FILE_LIMITS.unpackedBytes / 1_000_000} MB, which is more than the workbench opens.`,
      );
    chunks.push(chunk);
    isWhole = isLast;
  });
  try {
    for (let at = 0; at < packed.length; at += CHUNK_BYTES)
      inflate.push(packed.subarray(at, at + CHUNK_BYTES), at + CHUNK_BYTES >= packed.length);
  } catch (error) {
    if (error instanceof FileRefusedError) throw error;
    throw damaged(`${name} cannot be unpacked`);
  }
  if (!isWhole) throw damaged(`${name} is cut off`);
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

const CHECKSUM_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/** CRC-32 as in ISO/IEC 21320-1. */
function checksumOf(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) rest = (CHECKSUM_TABLE[(rest ^ byte) & 0xff] ?? 0) ^ (rest >>> 8);
  return (rest ^ 0xffffffff) >>> 0;
}

export function damaged(why: string): FileRefusedError {
  return new FileRefusedError(`The file is damaged: ${why}.`);
}
