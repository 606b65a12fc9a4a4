import { isUtf8 } from "node:buffer";
import { say } from "../../text/say";

/** The text of a file, or why there is none. */
export type Content = { readonly text: string } | { readonly reason: string };

const NEW_LINE = 0x0a;

/** Reads UTF-8, with or without a byte order mark, and UTF-16 with one; nothing else is guessed. */
export function decode(bytes: Uint8Array): Content {
  const utf16 = utf16Of(bytes);
  if (utf16) return decodeUtf16(bytes, utf16);
  if (bytes.includes(0)) {
    return {
      reason:
        say`It looks like a binary file, not a text: it holds NUL bytes. ` +
        say`Name the pattern's text file, or save the pattern as plain text (UTF-8).`,
    };
  }
  return isUtf8(bytes) ? { text: new TextDecoder().decode(bytes) } : { reason: notUtf8(bytes) };
}

function utf16Of([first, second]: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  if (first === 0xff && second === 0xfe) return "utf-16le";
  if (first === 0xfe && second === 0xff) return "utf-16be";
  return undefined;
}

function decodeUtf16(bytes: Uint8Array, encoding: string): Content {
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes) };
  } catch {
    return {
      reason: say`It starts like UTF-16 text, but some characters are damaged. Save it again as UTF-8.`,
    };
  }
}

function notUtf8(bytes: Uint8Array): string {
  return (
    say`Line ${firstBadLine(bytes)} holds a character that is not UTF-8. ` +
    say`Save the file as "UTF-8"; an older program may have saved it as "Western" or "ANSI".`
  );
}

function firstBadLine(bytes: Uint8Array): number {
  let line = 1;
  let start = 0;
  let end = bytes.indexOf(NEW_LINE);
  while (end >= 0 && isUtf8(bytes.subarray(start, end))) {
    line += 1;
    start = end + 1;
    end = bytes.indexOf(NEW_LINE, start);
  }
  return line;
}
