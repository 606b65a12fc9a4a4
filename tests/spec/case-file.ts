import { readdirSync, readFileSync } from "node:fs";

/** One line of a case's table, cells as typed. */
export interface ExpectedRow {
  readonly head: string;
  readonly needs: string;
  readonly has: string;
  readonly makes: string;
  readonly stated: string;
  readonly verdict: string;
}

/** A small pattern and what is expected of each of its rows. */
export interface SpecCase {
  readonly topic: string;
  readonly name: string;
  readonly text: string;
  readonly rows: readonly ExpectedRow[];
  /** The head of the row where the error must be reported; null where nothing is said. */
  readonly reportAt: string | null;
  /** Why the second count does not read all rows that are ok; null where it does. */
  readonly beyondSecondCount: string | null;
}

const columns = ["head", "needs", "has", "makes", "stated", "verdict"] as const;

/** All cases of the Markdown files beside this one, in order of file name. */
export function readCases(folder = new URL(".", import.meta.url)): readonly SpecCase[] {
  const files = readdirSync(folder).filter((file) => file.endsWith(".md") && file !== "README.md");
  return files
    .sort()
    .flatMap((file) => casesOf(file.replace(".md", ""), readFileSync(new URL(file, folder), "utf8")));
}

/** Throws where a case is not written as the README says: a case that cannot be run is a fault of the file. */
export function casesOf(topic: string, markdown: string): readonly SpecCase[] {
  const sections = markdown.split(/^### /m).slice(1);
  return sections.map((section) => caseOf(topic, section));
}

function caseOf(topic: string, section: string): SpecCase {
  const name = section.slice(0, section.indexOf("\n")).trim();
  const block = /^```crochet\n([\s\S]*?)^```$/m.exec(section);
  if (!block?.[1]) throw new Error(`${topic} > ${name}: no fenced crochet text`);
  const rest = section.slice(block.index + block[0].length);
  const reportAt = /^Report at: (.+)$/m.exec(rest)?.[1]?.trim() ?? null;
  const beyondSecondCount = /^Beyond the second count: (.+)$/m.exec(section)?.[1]?.trim() ?? null;
  return {
    topic,
    name,
    text: block[1],
    rows: tableOf(rest, `${topic} > ${name}`),
    reportAt,
    beyondSecondCount,
  };
}

function tableOf(section: string, where: string): readonly ExpectedRow[] {
  const lines = section.split("\n").filter((line) => line.startsWith("|"));
  const [head, rule, ...body] = lines.map((line) =>
    line
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
  if (head?.join() !== columns.join() || rule === undefined || body.length === 0) {
    throw new Error(`${where}: the table must have the columns ${columns.join(" | ")}`);
  }
  return body.map((cells) => rowOf(cells, where));
}

function rowOf(cells: readonly string[], where: string): ExpectedRow {
  const [head, needs, has, makes, stated, verdict] = cells;
  if (!head || !needs || !has || !makes || !stated || !verdict || cells.length !== columns.length) {
    throw new Error(`${where}: a table line needs ${columns.length} filled cells: ${cells.join(" | ")}`);
  }
  return { head, needs, has, makes, stated, verdict };
}
