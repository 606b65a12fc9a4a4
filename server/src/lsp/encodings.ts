import { PositionEncodingKind } from "vscode-languageserver";

/** How a client counts the characters of a line; texts themselves are counted in UTF-16 units, as JavaScript does. */
export interface Encoding {
  readonly kind: PositionEncodingKind;
  /** How many of the client's units a stretch of text has. */
  lengthOf(text: string, start: number, end: number): number;
  /** The offset so many of the client's units behind a start, at most `end`; within a character, where that begins. */
  offsetOf(text: string, start: number, end: number, units: number): number;
}

export const utf16: Encoding = {
  kind: PositionEncodingKind.UTF16,
  lengthOf: (_, start, end) => end - start,
  offsetOf: (_, start, end, units) => Math.min(start + units, end),
};

const utf8: Encoding = {
  kind: PositionEncodingKind.UTF8,
  lengthOf(text, start, end) {
    let bytes = 0;
    for (let at = start; at < end; at += unitsOf(text, at)) bytes += bytesOf(text, at);
    return bytes;
  },
  offsetOf(text, start, end, units) {
    let [at, bytes] = [start, 0];
    while (at < end) {
      bytes += bytesOf(text, at);
      if (bytes > units) break;
      at += unitsOf(text, at);
    }
    return Math.min(at, end);
  },
};

/** UTF-16 units of the character at an offset. */
function unitsOf(text: string, at: number): number {
  return (text.codePointAt(at) ?? 0) > 0xffff ? 2 : 1;
}

/** Bytes of the character at an offset in UTF-8 (RFC 3629, section 3). */
function bytesOf(text: string, at: number): number {
  const char = text.codePointAt(at) ?? 0;
  return char < 0x80 ? 1 : char < 0x800 ? 2 : char < 0x10000 ? 3 : 4;
}

const known = [utf16, utf8];

/** The first encoding of a client's list that is known here; UTF-16 where the client says nothing. */
export function encodingFor(wanted: readonly PositionEncodingKind[] = []): Encoding {
  const kind = wanted.find((one) => known.some((encoding) => encoding.kind === one));
  return known.find((encoding) => encoding.kind === kind) ?? utf16;
}
