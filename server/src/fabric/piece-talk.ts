/** What the prose of a piece says of where it begins and ends. */
export interface PieceTalk {
  /** `join in the front loops of Round 14`: the row that the first row stands on. */
  readonly onRow: number | null;
  /** `worked on the first 12 sts of Round 13`: how many the first row stands on, one number for all sizes or one a size. */
  readonly onStitches: readonly number[] | null;
  /** The yarn is joined anew before the first row. */
  readonly rejoined: boolean;
  /** The yarn is cut after the last row. */
  readonly fastened: boolean;
}

export const noTalk: PieceTalk = { onRow: null, onStitches: null, rejoined: false, fastened: false };

const loopsOfRow =
  /\b(?:front|back|unused|remaining|free|leftover)\s+(?:loops?|lps?)\b[^.]*?\bof\s+(?:row|rnd|round)\s*(\d+)/i;
const stitchOfRow =
  /\b(?:join|attach)\w*\b[^.]*?\b(?:st|stitch|sc|dc|hdc|tr)\s+of\s+(?:(?:row|rnd|round)\s*(\d+)|(\d+)(?:st|nd|rd|th)\s+(?:row|rnd|round))/i;
const stitchesOf =
  /\bwork\w*\b(?!\s+as\b)[^.]*?\b(?:on|over|across)\s+(?:only\s+)?(?:the\s+|these\s+)?(?:(?:first|next|last|cent(?:er|re)|remaining|same)\s+)?(\d+(?:\s*[([]\s*\d+(?:\s*[,;:]\s*\d+)*\s*[)\]])?)\s+(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)\b/i;
const joins = /\b(?:re)?(?:join|attach)\w*\b/i;
const ends =
  /\b(?:(?:fasten|finish|break|bind|tie|end)\s+off|f\.?\/?o\.?|(?:cut|break)\s+(?:the\s+)?(?:yarn|thread))(?!\w)/i;
const goesOn = /\b(?:not|n['’]t|without)\b/i;

/** Whether a line ends the work, as far as its own words tell. */
export function fastensOff(text: string): boolean {
  return ends.test(text) && !goesOn.test(text);
}

/** Takes a line of prose before the first row or behind the last one into account. */
export function withLine(talk: PieceTalk, text: string, isBefore: boolean): PieceTalk {
  if (!isBefore) return fastensOff(text) ? { ...talk, fastened: true } : talk;
  const part = /\bwork/i.test(text) ? stitchesOf.exec(text)?.[1] : undefined;
  if (part !== undefined) return { ...talk, onStitches: (part.match(/\d+/g) ?? []).map(Number) };
  const [, named, nth] = stitchOfRow.exec(text) ?? [];
  const row = loopsOfRow.exec(text)?.[1] ?? named ?? nth;
  if (row !== undefined) return { ...talk, onRow: Number(row) };
  return joins.test(text) ? { ...talk, rejoined: true } : talk;
}

export function sameTalk(a: PieceTalk, b: PieceTalk): boolean {
  const areOnSame = String(a.onStitches) === String(b.onStitches);
  return areOnSame && a.onRow === b.onRow && a.rejoined === b.rejoined && a.fastened === b.fastened;
}
