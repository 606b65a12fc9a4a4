import type { WorkedPattern } from "../../rules/rule";
import { counted, type Noun } from "../../rules/wording";
import { inEnglish } from "../../text/say";
import { sentenceStart } from "../../text/sentence";
import type { RowReport } from "../../workspace/report";
import { rowReport } from "../../workspace/row-report";
import { type PlacedRow, rowAtOrBefore } from "../placed-row";
import { type Proof, type ProofTable, proofOf, sizesOf } from "../proof/proof";
import type { ProofLine } from "../proof/proof-lines";
import { isMany, roundsOrRows, rowTitle } from "../row-names";
import { kindsOf } from "../shown/counts";
import { mergedSizes, sized } from "../shown/sized";
import { spelledOut } from "./spelled-out";

/** A row in whole sentences, for whoever listens to it. */
export interface RowInWords {
  /** `Round 3`. */
  readonly row: string;
  readonly text: string;
}

/** The row at an offset, or on a line between rows the one before, without one abbreviation; null outside the pieces. */
export function rowInWordsAt(pattern: WorkedPattern, offset: number): RowInWords | null {
  const placed = rowAtOrBefore(pattern, offset);
  if (!placed) return null;
  const row = sentenceStart(nameInWords(rowTitle(placed.row), placed));
  return { row, text: inWords(row, placed, pattern) };
}

/** Patterns are English, and a row read out is the pattern in longer words. */
function inWords(name: string, placed: PlacedRow, pattern: WorkedPattern): string {
  const said = inEnglish(() => sentencesOf(name, placed, pattern));
  return said.map((one) => spelledOut(one, pattern.context.terms)).join(" ");
}

/** The same, where it is known how the row is worked. */
export function workedInWords(placed: PlacedRow, pattern: WorkedPattern): string | null {
  const { row, piece } = placed;
  const isTold = row.line.kind !== "foundation" && proofOf(row, piece) !== null;
  return isTold ? inWords(sentenceStart(nameInWords(rowTitle(row), placed)), placed, pattern) : null;
}

/** `round 3` for `Rnd 3`, `R3`, `3.` */
function nameInWords(title: string, { row, piece }: PlacedRow): string {
  const words = roundsOrRows(row.line, piece);
  const [, first, last] = /^(?:\p{L}+\.?\s*)?#?(\d+)(?:\s*[-–—]\s*\p{L}*\s*(\d+))?[.:)]?$/u.exec(title) ?? [];
  if (first === undefined) return title.replace(/\brnd(s?)\b/gi, "round$1").replace(/\brep\b/gi, "repeat");
  return last === undefined ? `${words.slice(0, -1)} ${first}` : `${words} ${first} to ${last}`;
}

function sentencesOf(name: string, placed: PlacedRow, pattern: WorkedPattern): string[] {
  const { row, piece } = placed;
  const report = rowReport(row, pattern.context.sizes.length);
  if (row.line.kind === "foundation") return [`This is what the piece begins with: ${row.line.text.trim()}`];
  if (report.result === "unchecked")
    return [`${name} is not checked: ${row.reason ?? "nothing tells what it is worked on"}.`];
  const proof = proofOf(row, piece);
  const tables = proof?.tables.flatMap((table) => tableInWords(table, proof, placed)) ?? [];
  return [
    opening(name, proof, report, placed),
    ...tables,
    ...closing(isMany(row) ? "The last of them" : name, report),
  ];
}

function opening(name: string, proof: Proof | null, { has }: RowReport, placed: PlacedRow): string {
  const many = isMany(placed.row);
  const is = many ? "are worked one like the other" : "is worked";
  const below = proof && has?.some((n) => n !== null) && !many ? nameInWords(proof.below, placed) : null;
  const all = has?.filter((n) => n !== null) ?? [];
  if (!proof || below === null) return `${name} ${is}${many ? "" : " on nothing: it begins a piece"}.`;
  const [only = 0] = all;
  const places = all.length === 1 ? counted(only, proof.noun) : `${sized(all)} ${plural(proof.noun)}`;
  return `${name} ${is} over the ${places} of ${below}.`;
}

function plural(noun: Noun): string {
  return counted(2, noun).replace(/^2 /, "");
}

function tableInWords(table: ProofTable, { noun }: Proof, { piece }: PlacedRow): string[] {
  const sizes = sizesOf(table, piece);
  const steps = table.lines.map((line, i) => stepInWords(line, i + 1, noun));
  return sizes === null ? steps : [`In ${sizes}:`, ...steps];
}

/** `Step 2, on stitch 2: work 2 sc in one st.` */
function stepInWords({ places, does }: ProofLine, n: number, noun: Noun): string {
  const one = counted(1, noun).replace(/^1 /, "");
  const where = places === "" ? "" : `, on ${/[–(]/.test(places) ? plural(noun) : one} ${places}`;
  return `Step ${n}${where}: ${asked(does)}.`;
}

/** What is asked for, as it is said to somebody. */
function asked(does: string): string {
  const again = /^steps? (\S+) again, (.+)$/.exec(does);
  if (again) return `do step${/[–-]/.test(again[1] ?? "") ? "s" : ""} ${again[1]} again, ${again[2]}`;
  if (/^skip in each$/.test(does)) return "skip each of them";
  if (/^(?:skip|turn|join)\b|^the opening chain/.test(does)) return does;
  return /^ch \d/.test(does) ? `make ${does}` : `work ${does}`;
}

function closing(name: string, report: RowReport): string[] {
  const { needs, has, result, stated } = report;
  const misfit = `It does not fit: it needs ${sized(needs ?? [])}, and there are ${sized(has ?? [])}.`;
  return [
    `${name} has ${madeBy(report)}.`,
    ...(result === "does-not-fit" ? [misfit] : []),
    ...(result === "wrong-count" && stated ? [`The line says ${sized(stated)}.`] : []),
  ];
}

/** `18 stitches`; `2 shells, 2 sc` where not all of them are counted alike. */
function madeBy(report: RowReport): string {
  const makes = report.makes ?? [];
  const kinds = mergedSizes(makes.map((n, size) => (n === null ? null : kindsOf(report, size) || null)));
  if (kinds?.includes(",")) return kinds;
  const made = makes.filter((n) => n !== null);
  return made.length === 1 && made[0] === 1 ? "1 stitch" : `${sized(made)} stitches`;
}
