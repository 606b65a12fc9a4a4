import { Checker } from "../../server/src/workspace/checker";
import { isFault, isLoud, type Seen, seen } from "./judge";
import { type Mutant, places } from "./mutants";
import { sampleMutants } from "./samples";

interface Judged {
  readonly mutant: Mutant;
  readonly seen: Seen;
  readonly fault: boolean;
  /** How the changed row was judged, and with what reason or assumption, for those who look after a survivor. */
  readonly why: string;
}

function judged(mutant: Mutant): Judged {
  const found = seen(mutant);
  const crashed = found === "crash";
  return { mutant, seen: found, fault: isFault(mutant), why: crashed ? "the checker stopped" : why(mutant) };
}

function why({ text, start, end }: Mutant): string {
  const { pieces, findings } = new Checker().check(text);
  const rows = pieces.flatMap((piece) => piece.rows);
  const row = rows.find(({ span }) => start <= span.start && span.start <= end);
  const quiet = findings.find(
    (finding) => !isLoud(finding) && start <= finding.span.start && finding.span.start <= end,
  );
  if (!row) return "no row was seen here";
  if (row.result === "unchecked") return `unchecked: ${row.reason ?? quiet?.message ?? "no reason"}`;
  return [row.result, ...row.assumptions].join("; ");
}

function share(some: readonly unknown[], all: readonly unknown[]): string {
  return `${some.length} of ${all.length} (${((100 * some.length) / Math.max(all.length, 1)).toFixed(2)} %)`;
}

function isFound({ seen }: Judged): boolean {
  return seen === "on the line" || seen === "elsewhere";
}

function summary(title: string, list: readonly Judged[]): string {
  const onLine = list.filter((one) => one.seen === "on the line");
  const found = list.filter(isFound);
  return `| ${title} | ${share(onLine, list)} | ${share(found, list)} |`;
}

function grouped(list: readonly Judged[], keyOf: (one: Judged) => string): string {
  const groups = new Map<string, Judged[]>();
  for (const one of list) groups.set(keyOf(one), [...(groups.get(keyOf(one)) ?? []), one]);
  const sorted = [...groups].sort((a, b) => b[1].length - a[1].length);
  return sorted
    .map(([key, ones]) => `### ${key}: ${ones.length}\n\n${ones.map(shown).join("\n")}\n`)
    .join("\n");
}

function shown({ mutant }: Judged): string {
  const line = mutant.text.slice(0, mutant.start).split("\n").length;
  return `- ${mutant.file}:${line} ${mutant.shown}`;
}

const all = sampleMutants("samples").map(judged);
const rows = all.filter(({ mutant }) => mutant.place !== "starting chain");
const faults = rows.filter((one) => one.fault);
const none = rows.filter((one) => !one.fault);
const files = [...new Set(faults.map(({ mutant }) => mutant.file))];
const survivors = faults.filter((one) => !isFound(one));
const elsewhere = faults.filter((one) => one.seen === "elsewhere");
const byPlaceAndReason = ({ mutant, why }: Judged) => `${mutant.place}, ${why}`;

function table(): string {
  return [
    "| | found on the line | found at all |",
    "|---|---|---|",
    summary("all faults", faults),
    ...places.map((place) =>
      summary(
        place,
        all.filter(({ mutant, fault }) => fault && mutant.place === place),
      ),
    ),
    ...files.map((file) =>
      summary(
        file,
        faults.filter(({ mutant }) => mutant.file === file),
      ),
    ),
  ].join("\n");
}

function section(title: string, list: readonly Judged[], keyOf: (one: Judged) => string): string {
  return `## ${title}: ${list.length}\n\n${grouped(list, keyOf)}`;
}

const quiet = none.filter((one) => !isFound(one));
const loud = none.filter(isFound);
console.log(
  [
    "# Seeded faults",
    `${rows.length} numbers in rows changed by one. ${none.length} of the changes leave a pattern that adds up by an independent count: no faults. Starting chains are apart: their faults show in the row worked on them.`,
    table(),
    section("Not found", survivors, byPlaceAndReason),
    section("Found on another line only", elsewhere, byPlaceAndReason),
    section("Reported although the independent count adds up", loud, byPlaceAndReason),
    section("No faults, and nothing is reported", quiet, ({ mutant }) => mutant.place),
  ].join("\n\n"),
);
