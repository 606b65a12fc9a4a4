import { partsOf } from "../fabric/parts";
import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { say } from "../text/say";
import { shift, type TextEdit, withEdits } from "../text/span";
import { mirroredRow } from "./mirrored-row";
import { isRefusal, type Refusal } from "./row-trial";

/** The other one of a pair, to be written behind its fellow. */
export interface MirroredPiece {
  readonly name: string;
  readonly edit: TextEdit;
}

/** `6 sts left`, `left over`, `right side` and `right-side` are no sides of a pair. */
const sidesOfName =
  /(?<!\b(?:sts?|stitches|rem\w*)\s+)\b(?:right|left)\b(?![\s-]+(?:sides?|over|unworked)\b)/gi;

/** Parts of what is worn or made of which there is a left and a right one. */
const partsOfPair =
  "fronts?|backs?|edges?|sleeves?|cuffs?|shoulders?|arms?|armholes?|necks?|legs?|halves|half|side\\s+(?:seams?|panels?|necks?)";

/** `Left Front` for `Right Front`; null for a piece that is no half of a pair. */
export function otherName(name: string): string | null {
  const other = otherSides(name, sidesOfName);
  return other === name ? null : other;
}

function otherSides(text: string, sides: RegExp): string {
  return text.replace(sides, (word) => likeCase(word.toLowerCase() === "right" ? "left" : "right", word));
}

/** In sentences: `the left shoulder`, `to the left of the marker`, and what the pair itself is of. */
function sidesInText(name: string): RegExp {
  const own = /\b(?:right|left)\s+(\p{L}+)/iu.exec(name)?.[1];
  const parts = own && !/^sides?$/i.test(own) ? `${partsOfPair}|${own}` : partsOfPair;
  const ofPart = `\\b(?:right|left)(?=(?:[\\s-]hand)?\\s+(?:${parts})(?!\\p{L}))`;
  const toward = `(?<=\\b(?:to|on|at|from)\\s+the\\s+)(?:right|left)(?=\\s+of\\b|\\s*(?:[.,;:)]|$))`;
  return new RegExp(`(?<!\\b(?:sts?|stitches|rem\\p{L}*)\\s+)(?:${ofPart}|${toward})`, "gimu");
}

function likeCase(word: string, model: string): string {
  if (model === model.toUpperCase()) return word.toUpperCase();
  return /^\p{Lu}/u.test(model) ? word.charAt(0).toUpperCase() + word.slice(1) : word;
}

/** The left piece from the right, or the other way round: every row told from its other end. */
export function mirroredPiece(pattern: WorkedPattern, piece: WorkedPiece): MirroredPiece | Refusal {
  const name = otherName(piece.piece.name);
  const part = partsOf(pattern).find((one) => one.piece === piece);
  if (name === null || !part?.heading) return { why: say`its name says neither left nor right` };
  const edits: TextEdit[] = [];
  for (const row of piece.rows) {
    const found = mirroredRow(row, piece);
    if (isRefusal(found)) return { why: say`${row.line.headText} has no mirror image: ${found.why}` };
    edits.push(...found.map(({ span, newText }) => ({ span: shift(span, row.line.start), newText })));
  }
  const lines = [part.heading, ...part.lines];
  const last = lines.findLast(({ kind }) => kind !== "blank") ?? part.heading;
  const { start } = part.heading;
  const rewritten = withEdits(
    pattern.text.slice(start, last.end),
    edits.map((one) => back(one, start)),
  );
  const newline = pattern.text.includes("\r\n") ? "\r\n" : "\n";
  const heading = rewritten.slice(0, part.heading.end - start);
  const rest = otherSides(rewritten.slice(heading.length), sidesInText(piece.piece.name));
  const newText = `${newline}${newline}${otherSides(heading, sidesOfName)}${rest}`;
  return { name, edit: { span: { start: last.end, end: last.end }, newText } };
}

function back({ span, newText }: TextEdit, by: number): TextEdit {
  return { span: shift(span, -by), newText };
}
