import { partsOf } from "../fabric/parts";
import type { WorkedPattern, WorkedPiece } from "../fabric/worked";
import { shift, type TextEdit, withEdits } from "../text/span";
import { mirroredRow } from "./mirrored-row";
import { isRefusal, type Refusal } from "./row-trial";

/** The other one of a pair, to be written behind its fellow. */
export interface MirroredPiece {
  readonly name: string;
  readonly edit: TextEdit;
}

const sides = /\b(right|left)\b(?!\s+sides?\b)/gi;

/** `Left Front` for `Right Front`; null for a piece that is no half of a pair. */
export function otherName(name: string): string | null {
  const other = otherSides(name);
  return other === name ? null : other;
}

function otherSides(text: string): string {
  return text.replace(sides, (word) => likeCase(word.toLowerCase() === "right" ? "left" : "right", word));
}

function likeCase(word: string, model: string): string {
  if (model === model.toUpperCase()) return word.toUpperCase();
  return /^\p{Lu}/u.test(model) ? word.charAt(0).toUpperCase() + word.slice(1) : word;
}

/** The left piece from the right, or the other way round: every row told from its other end. */
export function mirroredPiece(pattern: WorkedPattern, piece: WorkedPiece): MirroredPiece | Refusal {
  const name = otherName(piece.piece.name);
  const part = partsOf(pattern).find((one) => one.piece === piece);
  if (name === null || !part?.heading) return { why: "its name says neither left nor right" };
  const edits: TextEdit[] = [];
  for (const row of piece.rows) {
    const found = mirroredRow(row, piece);
    if (isRefusal(found)) return { why: `${row.line.headText} has no mirror image: ${found.why}` };
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
  const newText = `${newline}${newline}${otherSides(rewritten)}`;
  return { name, edit: { span: { start: last.end, end: last.end }, newText } };
}

function back({ span, newText }: TextEdit, by: number): TextEdit {
  return { span: shift(span, -by), newText };
}
