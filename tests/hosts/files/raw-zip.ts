/** A packed file written byte by byte, so that it can say what is not so. */
import { crc32, deflateRawSync } from "node:zlib";

export interface RawEntry {
  readonly name: string;
  readonly data: Uint8Array;
  /** What is said in place of the truth. */
  readonly says?: {
    readonly size?: number;
    readonly checksum?: number;
    readonly method?: number;
    readonly flags?: number;
    /** Where another entry of this place in the list lies. */
    readonly sameAs?: number;
  };
}

export function textBytes(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

const DEFLATED = 8;

/** @param count What the end says of how many entries there are. */
export function rawZip(entries: readonly RawEntry[], count = entries.length): Uint8Array {
  const pieces: Buffer[] = [];
  const directory: Buffer[] = [];
  const offsets: number[] = [];
  const packedAlready = new Map<Uint8Array, Buffer>();
  let at = 0;
  for (const { name, data, says = {} } of entries) {
    const packed = packedAlready.get(data) ?? deflateRawSync(data);
    packedAlready.set(data, packed);
    const bytes = Buffer.from(name);
    const facts = Buffer.alloc(26);
    facts.writeUInt16LE(20, 0);
    facts.writeUInt16LE(says.flags ?? 0, 2);
    facts.writeUInt16LE(says.method ?? DEFLATED, 4);
    facts.writeUInt32LE(says.checksum ?? crc32(data), 10);
    facts.writeUInt32LE(packed.length, 14);
    facts.writeUInt32LE(says.size ?? data.length, 18);
    facts.writeUInt16LE(bytes.length, 22);
    const local = Buffer.concat([Buffer.from("PK\x03\x04"), facts, bytes]);
    const place = Buffer.alloc(14);
    offsets.push(at);
    place.writeUInt32LE(offsets[says.sameAs ?? offsets.length - 1] ?? at, 10);
    directory.push(Buffer.concat([Buffer.from("PK\x01\x02\x14\x00"), facts, place, bytes]));
    pieces.push(local, packed);
    at += local.length + packed.length;
  }
  const size = directory.reduce((sum, { length }) => sum + length, 0);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(count, 4);
  end.writeUInt16LE(count, 6);
  end.writeUInt32LE(size, 8);
  end.writeUInt32LE(at, 12);
  return new Uint8Array(Buffer.concat([...pieces, ...directory, Buffer.from("PK\x05\x06"), end]));
}
