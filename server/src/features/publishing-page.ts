import { type FrontMatter, frontMatterOf } from "../notation/front-matter/front-matter";
import { LineIndex } from "../text/line-index";
import { say, sayings } from "../text/say";
import type { Checked } from "../workspace/checker";
import type { Finding, MeasuredRow, PieceReport } from "../workspace/report";
import type { Severities } from "../workspace/severities";
import { isQuery, queriedOf, queryLines } from "./queries";
import { type Block, line, list } from "./shown/blocks";
import { escaped, toMarkdown } from "./shown/markdown";

/** What the page is made from. */
export interface Publishing {
  readonly checked: Checked;
  /** What is shown: as loud as is set. */
  readonly findings: readonly Finding[];
  readonly severities: Severities;
  /** The ways to mend a finding, in words. */
  readonly fixesOf: (finding: Finding) => readonly string[];
}

interface Section {
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** One page of Markdown: what was checked, what was taken for granted, what was not checked and why, and what is open. */
export function publishingPage(publishing: Publishing): string {
  const { checked } = publishing;
  const name = checked.worked.lines.find(({ kind }) => kind !== "blank")?.text.trim() ?? "";
  const sections = [
    { title: say`Open queries`, blocks: queriesOf(publishing) },
    { title: say`Notes`, blocks: notesOf(publishing) },
    { title: say`Rows`, blocks: rowsOf(checked.report.pieces) },
    { title: say`Checked, taking for granted`, blocks: assumptionsOf(checked) },
    { title: say`Not checked`, blocks: notChecked(publishing) },
    { title: say`What is listed, against the rows`, blocks: frontTable(publishing) },
    { title: say`Not looked at`, blocks: [line(beyond())] },
  ];
  const heading = `# ${say`Before publishing`}${name === "" ? "" : `: ${escaped(name)}`}`;
  return `${[heading, toMarkdown([line(inShort(publishing))]), ...sections.flatMap(written)].join("\n\n")}\n`;
}

function beyond(): string {
  return say`Whether the work looks as it should, the sentences between the rows, and safety: small parts, cords and heat come under the rules of the place where the pattern or the work is sold.`;
}

function written({ title, blocks }: Section): string[] {
  return blocks.length === 0 ? [] : [`## ${title}`, toMarkdown(blocks)];
}

function inShort({ checked, findings }: Publishing): string {
  const rows = allRows(checked.report.pieces);
  const open = findings.filter(isQuery).length;
  const said = [
    counted(open, say`open query`, say`open queries`),
    say`${rows.filter(isChecked).length} of ${counted(rows.length, say`row`, say`rows`)} checked`,
  ];
  return `${said.join("; ")}.${open === 0 && rows.length > 0 && rows.every(isChecked) ? say` Nothing was found that speaks against publishing.` : ""}`;
}

function counted(n: number, one: string, several: string): string {
  return `${n} ${n === 1 ? one : several}`;
}

function queriesOf({ checked, findings, fixesOf }: Publishing): Block[] {
  const lines = new LineIndex(checked.worked.text);
  const queries = queryLines([["", queriedOf(checked.report, findings, lines, fixesOf)]]);
  if (queries.length === 0) return [line(say`None.`)];
  return list(queries.map((query) => query.replace(/^\d+\. /, "")));
}

function notesOf({ checked, findings }: Publishing): Block[] {
  const lines = new LineIndex(checked.worked.text);
  const notes = findings.filter((finding) => !isQuery(finding));
  return list(notes.map(({ span, message }) => say`line ${lines.position(span.start).line + 1}: ${message}`));
}

function allRows(pieces: readonly PieceReport[]): MeasuredRow[] {
  return pieces.flatMap(({ rows }) => rows.filter(({ kind }) => kind === "row"));
}

function isChecked({ result }: MeasuredRow): boolean {
  return result !== "unchecked" && result !== "ambiguous";
}

function rowsOf(pieces: readonly PieceReport[]): Block[] {
  const rows = pieces.map((piece) => {
    const all = allRows([piece]);
    const checked = all.filter(isChecked);
    const granted = checked.filter(({ assumptions }) => assumptions.length > 0).length;
    return [pieceName(piece), all.length, checked.length - granted, granted, all.length - checked.length];
  });
  const head = [
    say`piece`,
    say`rows`,
    say`checked`,
    say`checked, taking something for granted`,
    say`not checked`,
  ];
  return rows.length === 0
    ? [line(say`There are no rows.`)]
    : [{ kind: "table", head, rows: rows.map((cells) => cells.map(String)) }];
}

function pieceName({ name, make }: PieceReport): string {
  return `${name || say`the piece`}${make > 1 ? say` (make ${make})` : ""}`;
}

/** Each thing that was taken for granted, with the rows that stand on it. */
function assumptionsOf({ report }: Checked): Block[] {
  const rows = new Map<string, string[]>();
  for (const piece of report.pieces)
    for (const row of piece.rows.filter(isChecked))
      for (const assumption of row.assumptions)
        rows.set(assumption, [...(rows.get(assumption) ?? []), rowName(piece, row)]);
  return list([...rows].map(([assumption, heads]) => `${assumption}: ${heads.join(", ")}`));
}

function rowName({ name }: PieceReport, { head }: MeasuredRow): string {
  return name === "" ? head : `${name} ${head}`;
}

function notChecked({ checked, severities }: Publishing): Block[] {
  const rows = checked.report.pieces.flatMap((piece) =>
    piece.rows
      .filter((row) => !isChecked(row))
      .map((row) => `${rowName(piece, row)}: ${row.reason ?? say`it can be read in more than one way`}`),
  );
  const off = [...severities].filter(([, severity]) => severity === "off").map(([rule]) => rule);
  return list([...rows, ...off.map((rule) => say`${rule}: turned off in the settings`)]);
}

const listedThings = sayings({
  terms: "terms",
  abbreviations: "abbreviations",
  specialStitches: "special stitches",
  yarns: "yarns",
  hooks: "hooks",
  sizes: "sizes",
  measurements: "measurements",
  gauge: "gauge",
});

/** A kind of list with the rules that hold it against the rows. */
const compared: readonly (readonly [
  what: Parameters<typeof listedThings>[0],
  listed: (front: FrontMatter) => number,
  rules: readonly string[],
])[] = [
  ["terms", ({ terms }) => Number(terms !== null), ["mixed-terms", "untold-terms"]],
  [
    "abbreviations",
    ({ abbreviations }) => abbreviations.flatMap(({ entries }) => entries).length,
    ["undefined-abbreviation", "unused-abbreviation", "defined-twice"],
  ],
  ["specialStitches", ({ specialStitches }) => specialStitches.length, ["defined-twice"]],
  ["yarns", ({ yarns }) => yarns.length, ["unlisted-yarn", "unused-yarn"]],
  ["hooks", ({ hooks }) => hooks.length, ["unlisted-hook", "hook-mismatch"]],
  ["sizes", ({ sizes }) => sizes.length, ["uneven-sizes", "unlisted-size"]],
  ["measurements", ({ measurements }) => measurements.length, ["lengths-disagree"]],
  ["gauge", ({ gauge }) => gauge.length, ["incomplete-gauge"]],
];

function frontTable({ checked, findings, severities }: Publishing): Block[] {
  const front = frontMatterOf(checked.worked.lines);
  const rows = compared.map(([what, listed, rules]) => {
    const n = listed(front);
    const found = findings.filter(({ rule }) => rules.includes(rule)).length;
    const isOff = rules.every((rule) => severities.get(rule) === "off");
    const silent = isOff ? say`not compared` : n > 0 ? say`agrees` : "";
    const told = found > 0 ? counted(found, say`remark above`, say`remarks above`) : silent;
    return [
      listedThings(what),
      n === 0 ? say`not listed` : what === "terms" ? (front.terms?.terms ?? "") : `${n}`,
      told,
    ];
  });
  return [{ kind: "table", head: [say`what`, say`listed`, say`against the rows`], rows }];
}
