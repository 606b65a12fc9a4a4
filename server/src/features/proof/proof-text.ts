import type { RowLine } from "../../fabric/pattern";
import type { WorkedRow } from "../../fabric/worked";
import type { WorkedPattern } from "../../rules/rule";
import { say } from "../../text/say";
import { sentenceStart } from "../../text/sentence";
import type { RowReport } from "../../workspace/report";
import { rowReport } from "../../workspace/row-report";
import { type PlacedRow, rowAtOrBefore } from "../placed-row";
import { wordsBehind } from "../row-instructions";
import { belowTitle, isMany, rowTitle } from "../row-names";
import { misfitWords } from "../row-notes";
import { kindsOf, sts } from "../shown/counts";
import { mergedSizes, type Numbers, sized } from "../shown/sized";
import { numbered, placesShort } from "./place-names";
import { type Proof, type ProofTable, proofOf, sizesOf } from "./proof";
import type { ProofLine } from "./proof-lines";

/** The proof of a row as plain text, to be put into a reply; or why there is none. */
export interface ProofText {
  /** `Rnd 3`. */
  readonly row: string;
  readonly text: string | null;
  readonly reason: string | null;
}

/** The proof of the row at an offset, or on a line between rows of the one before; null outside the pieces. */
export function proofTextAt(pattern: WorkedPattern, offset: number): ProofText | null {
  const placed = rowAtOrBefore(pattern, offset);
  if (!placed) return null;
  const row = rowTitle(placed.row);
  const proof = proofOf(placed.row, placed.piece);
  if (!proof) return { row, text: null, reason: whyNot(placed, row) };
  return { row, text: textOf(proof, placed, pattern), reason: null };
}

function whyNot({ row: { line, result, reason } }: PlacedRow, name: string): string {
  if (line.kind === "foundation") return say`A starting chain or ring has no row below it to be worked over.`;
  if (result === "unchecked")
    return say`${name} is not checked: ${reason ?? say`nothing tells what it is worked on`}.`;
  return say`${name} says how the count changes, not which stitches are worked.`;
}

function textOf(proof: Proof, placed: PlacedRow, pattern: WorkedPattern): string {
  const { row, piece } = placed;
  const words = wordsBehind(row, piece);
  const quoted = words === row.line ? [row.line] : [row.line, words];
  const tables = proof.tables.map((table) =>
    [intro(proof, table, placed), ...table.lines.map((line, i) => step(line, i, proof))].join("\n"),
  );
  return [
    quoted.map((line) => quote(line, pattern)).join("\n"),
    ...tables,
    closing(proof, placed, pattern),
  ].join("\n\n");
}

function quote({ span }: RowLine, { text }: WorkedPattern): string {
  return text.slice(span.start, span.end).replace(/\s+/g, " ").trim();
}

function intro(proof: Proof, table: ProofTable, { row, piece }: PlacedRow): string {
  const sizes = sizesOf(table, piece);
  const isOver = table.lines.some(({ places }) => places !== "");
  const over = isOver ? say`over the ${placesShort(proof.noun)} of ${proof.below}` : say`step by step`;
  const how = isMany(row) ? say`the last of them is worked ${over}:` : say`worked ${over}:`;
  return sentenceStart(sizes === null ? how : say`in ${sizes}, ${how}`);
}

/** `2. st 2: 2 sc in one st (3 sts made so far)`. */
function step({ places, does, makes, sum }: ProofLine, i: number, { noun }: Proof): string {
  const where = places === "" ? "" : `${numbered(noun, places)}: `;
  const made = makes === "" ? "" : say` (${sum} made so far)`;
  return `${i + 1}. ${where}${does}${made}`.replaceAll("–", "-");
}

function closing({ noun }: Proof, { row, piece }: PlacedRow, pattern: WorkedPattern): string {
  const report = rowReport(row, pattern.context.sizes.length);
  const { needs, has, makes, stated, result } = report;
  const made = mergedSizes(
    (makes ?? []).map((n, size) => (n === null ? null : kindsOf(report, size) || sts(n))),
  );
  const over =
    needs && has
      ? say`worked over ${worked(needs)} of the ${worked(has)} ${placesShort(noun)} of ${belowTitle(row, piece)}; `
      : "";
  const says = result === "wrong-count" && stated ? say` The line says ${worked(stated)}.` : "";
  const [meant] = result === "ambiguous" ? (row.outcome?.assumptions ?? []) : row.assumptions;
  const assumed = meant ? say` This is so if ${meant}.` : "";
  const first = isMany(row) && over !== "" ? say`The first of them: ` : say`In all: `;
  const all = made ?? worked(makes ?? []);
  const sum = isMany(row) ? say`the last of them makes ${all}.` : say`makes ${all}.`;
  return `${first}${over}${sum}${says}${misfit(report, row)}${assumed}`;
}

/** Of the sizes that work the row. */
function worked(list: Numbers): string {
  return sized(list.filter((n) => n !== null));
}

function misfit({ result, needs, has }: RowReport, row: WorkedRow): string {
  if (result !== "does-not-fit") return "";
  const apart = (needs ?? []).map((n, size) => (n ?? 0) - (has?.[size] ?? 0)).filter((n) => n !== 0);
  const [first] = apart;
  if (first === undefined) return say` It does not fit${misfitWords(row)}.`;
  const by = sized(apart.map(Math.abs));
  return first > 0 ? say` It does not fit: ${by} short.` : say` It does not fit: ${by} left over.`;
}
