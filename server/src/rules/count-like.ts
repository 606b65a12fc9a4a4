import type { Outcome } from "../fabric/outcome";
import { readerIn } from "../fabric/row-reader";
import type { WorkedPiece, WorkedRow } from "../fabric/worked";
import { shift, type TextEdit, withEdits } from "../text/span";
import type { WorkedPattern } from "./rule";

/** A count for a row that has none. */
interface CountLike {
  /** As it will stand there, without stops: `(18 sc)`. */
  readonly shown: string;
  readonly edit: TextEdit;
}

/** Writes the count of a row as the pattern writes its counts; null where it would not be read back. */
export function countLike(
  row: WorkedRow,
  outcome: Outcome,
  piece: WorkedPiece,
  pattern: WorkedPattern,
): CountLike | null {
  const model = modelFor(row, piece, pattern);
  const core = model && coreLike(model, outcome);
  if (!model || core === null) return null;
  const shown = `${model.open}${core}${model.close}`;
  const { text, start } = row.line;
  const own = text.replace(/[\s.,;:]+$/, "");
  const span = { start: own.length, end: text.length };
  const edit = { span, newText: `${model.gap}${shown}${model.stop}` };
  if (!isReadBack(withEdits(text, [edit]), outcome, piece)) return null;
  return { shown, edit: { ...edit, span: shift(span, start) } };
}

/** How another row of the pattern writes its count: `. (18 sc)`, ` = 18`, `; join – 28 sc.` */
interface Model {
  readonly gap: string;
  readonly open: string;
  readonly core: string;
  readonly close: string;
  readonly stop: string;
}

/** The nearest row above with a count of one kind, else any of the pattern. */
function modelFor(row: WorkedRow, piece: WorkedPiece, { pieces }: WorkedPattern): Model | null {
  const above = piece.rows.slice(0, piece.rows.indexOf(row)).findLast(hasPlainCount);
  const like = above ?? pieces.find(({ rows }) => rows.some(hasPlainCount))?.rows.find(hasPlainCount);
  return like ? modelOf(like) : null;
}

function hasPlainCount({ line, result }: WorkedRow): boolean {
  return result === "ok" && line.plan?.stated?.length === 1;
}

function modelOf({ line: { text, plan } }: WorkedRow): Model | null {
  const { start, end } = plan?.statedSpan ?? { start: 0, end: 0 };
  const [, open = "", core, close = ""] = /^([^\d]*)(\d.*?)([^\w]*)$/s.exec(text.slice(start, end)) ?? [];
  if (core === undefined) return null;
  const before = text.slice(0, start).replace(/[\s.,;:=–—-]+$/, "");
  const behind = text.slice(end);
  const isLast = /^[\s.]*$/.test(behind);
  return { gap: text.slice(before.length, start), open, core, close, stop: isLast ? behind.trim() : "" };
}

/** The model's numbers and noun with those of the row: `18 sc`, `18 (20, 22) hdc`, `32 sc, 16 ch-1 sps`. */
function coreLike({ core }: Model, { makes, counted }: Outcome): string | null {
  const kinds = new Set(counted.flatMap((one) => [...(one?.kinds.keys() ?? [])]));
  const noun = /\p{L}[\p{L}\s-]*$/u.exec(core)?.[0] ?? "";
  if (kinds.size > 1) return makes.length > 1 ? null : listedKinds(counted[0]?.kinds ?? new Map());
  const typed = core.match(/\d+/g) ?? [];
  if (typed.length !== makes.length) return null;
  let size = 0;
  const numbered = core.replace(/\d+/g, () => `${makes[size++]}`);
  const [kind] = kinds;
  const isStitch = noun !== "" && !/^(?:sts?|stitch(?:es)?)$/i.test(noun);
  return isStitch && kind !== undefined ? numbered.slice(0, numbered.length - noun.length) + kind : numbered;
}

function listedKinds(kinds: ReadonlyMap<string, number>): string {
  return [...kinds].map(([kind, n]) => `${n} ${/ sp$/.test(kind) && n > 1 ? `${kind}s` : kind}`).join(", ");
}

/** What is written must be understood as this count, and nothing else of the row be changed by it. */
function isReadBack(text: string, { makes, counted }: Outcome, { context }: WorkedPiece): boolean {
  const stated = readerIn(context).read(text)?.stated ?? [];
  const sum = (size: number): number =>
    stated.reduce((all, { n, sort }) => all + (sort === "space" ? 0 : (n[n.length > 1 ? size : 0] ?? 0)), 0);
  return stated.length === Math.max(counted[0]?.kinds.size ?? 1, 1) || stated.length === 1
    ? makes.every((n, size) => n === sum(size))
    : false;
}
