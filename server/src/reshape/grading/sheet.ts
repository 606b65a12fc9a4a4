import { say } from "../../text/say";
import type { TextEdit } from "../../text/span";
import type { Refusal } from "../row-trial";
import type { SizedList } from "./size-lists";

/*
 * A grading sheet: all lists of a pattern as a Markdown table with one column a size. What is changed in it can be
 * written back; a column more is one more size in every list.
 */

const fixed = ["no.", "line", "what"] as const;

/** The lists as a table, the names of the sizes in its head. */
export function sheetOf(lists: readonly SizedList[], sizes: readonly string[]): string {
  const rows = lists.map(({ of, line, cells }, i) => [
    `${i + 1}`,
    `${line + 1}`,
    of,
    ...cells.map(({ text }) => text),
  ]);
  const all = [[...fixed, ...sizes], ...rows].map((row) => row.map(escaped));
  const widths = (all[0] ?? []).map((_, column) =>
    Math.max(3, ...all.map((row) => row[column]?.length ?? 0)),
  );
  const lineOf = (row: readonly string[]): string =>
    `| ${row.map((text, column) => text.padEnd(widths[column] ?? 0)).join(" | ")} |`;
  const [head = [], ...body] = all;
  return [lineOf(head), lineOf(widths.map((width) => "-".repeat(width))), ...body.map(lineOf)].join("\n");
}

/** What a row says is text, whatever signs are in it: it makes no column, no picture and no link. */
function escaped(text: string): string {
  return text.replace(/[\\|<[`&]|:(?=\/\/)/g, "\\$&");
}

function unescaped(text: string): string {
  return text.replace(/\\([\\|<[`&:])/g, "$1");
}

/** A sheet as it was read: the names in its head, and the cells of each list. */
interface Sheet {
  readonly sizes: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

function readSheet(markdown: string): Sheet | Refusal {
  const lines = markdown.split(/\r?\n/).filter((line) => /^\s*\|/.test(line));
  const [head, rule, ...rows] = lines.map((line) =>
    line
      .trim()
      .replace(/^\||\|$/g, "")
      .split(/(?<!\\)\|/)
      .map((text) => unescaped(text.trim())),
  );
  if (!head || !rule || !fixed.every((name, i) => head[i] === name))
    return { why: say`this is no grading sheet: its table begins with the columns no., line and what` };
  return { sizes: head.slice(fixed.length), rows };
}

const number = /^(?:\d+(?:[.,]\d+)?(?:\s?[½¼¾]|\s\d\/\d)?|[-–—])$/;

/** What writes a sheet back into its pattern; or what is wrong with the sheet. Nothing is written by halves. */
export function editsFromSheet(
  markdown: string,
  lists: readonly SizedList[],
  sizes: readonly string[],
): TextEdit[] | Refusal {
  const sheet = readSheet(markdown);
  if ("why" in sheet) return sheet;
  const { sizes: columns, rows } = sheet;
  if (rows.length !== lists.length)
    return {
      why: say`the sheet has ${rows.length} lists and the pattern ${lists.length}: open the sheet again, and change only numbers in it`,
    };
  if (columns.length < sizes.length)
    return {
      why: say`the sheet has ${columns.length} sizes and the pattern ${sizes.length}: a column is missing`,
    };
  const edits: TextEdit[] = [];
  for (const [i, list] of lists.entries()) {
    const row = rows[i] ?? [];
    const cells = row.slice(fixed.length);
    if (row[2] !== list.of)
      return {
        why: say`list ${i + 1} is "${list.of}" in the pattern: open the sheet again, and change only numbers in it`,
      };
    const bad = columns.findIndex((_, column) => !isCell(cells[column] ?? "", list, column, sizes.length));
    if (bad >= 0)
      return {
        why: say`${list.of}, ${columns[bad]}: "${cells[bad] ?? ""}" is no number; a size that has none gets a dash`,
      };
    edits.push(...listEdits(list, cells.slice(0, columns.length)));
  }
  return edits;
}

function isCell(text: string, { cells }: SizedList, column: number, sizes: number): boolean {
  const isNames = cells.some((one) => !number.test(one.text));
  return isNames ? text !== "" && !/[()[\]{},;:]/.test(text) : number.test(text) && column < sizes + 20;
}

/** Entries that are others now, and behind the last one those that are new, with the list's own sign between. */
function listEdits({ cells, sign }: SizedList, wanted: readonly string[]): TextEdit[] {
  const changed = cells.flatMap(({ start, end, text }, i) =>
    wanted[i] === text ? [] : [{ span: { start, end }, newText: wanted[i] ?? text }],
  );
  const last = cells.at(-1);
  const more = wanted.slice(cells.length);
  if (!last || more.length === 0) return changed;
  return [
    ...changed,
    { span: { start: last.end, end: last.end }, newText: more.map((text) => `${sign}${text}`).join("") },
  ];
}
