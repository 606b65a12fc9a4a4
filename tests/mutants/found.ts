// `npm run mutants`: which slips in right patterns are found, and what is told of patterns that are right.
import type { WorkedPattern } from "../../server/src/fabric/worked";
import { Checker } from "../../server/src/workspace/checker";
import { causeOf, isSwallowed } from "./causes";
import { allMutants, cleanPatterns, rightPatterns } from "./corpus";
import { isLoud, isSure, type Seen, seen, type Verdict, verdictOf } from "./judge";
import { type Mutant, type Place, places } from "./mutant";
import { sampled } from "./sample";

interface Judged {
  readonly mutant: Mutant;
  readonly seen: Seen;
  readonly verdict: Verdict;
  /** A note on the changed line that the right pattern does not have, or a row there that is left unchecked. */
  readonly isNoted: boolean;
  /** How the changed row was judged, and with what reason or assumption, for those who look after a survivor. */
  readonly why: string;
}

/** Slips in a number, wherever it stands. */
const numberPlaces: ReadonlySet<Place> = new Set([
  "count",
  "multiplier",
  "stretch",
  "chain",
  "ordinal",
  "stitch name",
  "number",
  "starting chain",
  "digits",
]);

/** The share that was found when this was last looked at, less a hair; it may only grow. */
const floor = 0.992;

const checker = new Checker();

function judged(mutant: Mutant): Judged {
  const verdict = verdictOf(mutant.text);
  const found = seen(mutant, checker);
  if (found === "crash") return { mutant, seen: found, verdict, isNoted: false, why: "the checker stopped" };
  const because = why(mutant);
  return {
    mutant,
    seen: found,
    verdict,
    isNoted: because.startsWith("unchecked") || isNoted(mutant),
    why: because,
  };
}

const rightTexts = new Map(rightPatterns().map(({ name, text }) => [name, notesOf(text)]));

/** Rules that have something to say of a pattern, with how often. */
function notesOf(text: string): ReadonlyMap<string, number> {
  const sums = new Map<string, number>();
  for (const { rule } of checker.check(text).findings) sums.set(rule, (sums.get(rule) ?? 0) + 1);
  return sums;
}

function isNoted({ file, text, start, end }: Mutant): boolean {
  const before = rightTexts.get(file);
  const here = checker.check(text).findings.filter(({ span }) => start <= span.start && span.start <= end);
  const now = notesOf(text);
  return here.some(({ rule }) => (now.get(rule) ?? 0) > (before?.get(rule) ?? 0));
}

function why({ text, start, end }: Mutant): string {
  const { worked, report } = checker.work(text);
  const { pieces, findings } = report;
  const rows = pieces.flatMap((piece) => piece.rows);
  const row = rows.find(({ span }) => start <= span.start && span.start <= end);
  const quiet = findings.find(
    (finding) => !isLoud(finding) && start <= finding.span.start && finding.span.start <= end,
  );
  if (!row) return "no row was seen here";
  if (row.result === "unchecked") return `unchecked: ${row.reason ?? quiet?.message ?? "no reason"}`;
  const doubt = row.result === "ok" ? otherMeanings(worked, row.span.start) : [];
  return [row.result, ...row.assumptions, ...doubt].join("; ");
}

/** The unusual meanings that a right row was taken to have, because its numbers come out so. */
function otherMeanings({ pieces }: WorkedPattern, at: number): string[] {
  const row = pieces.flatMap(({ rows }) => rows).find(({ line }) => line.span.start === at);
  const { choices = [] } = row?.line.plan ?? {};
  return choices.flatMap(({ options, costs }, i) => {
    const taken = row?.outcome?.reading[i] ?? 0;
    return (costs[taken] ?? 0) > 0 ? [options[taken] ?? ""] : [];
  });
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
  const noted = list.filter((one) => isFound(one) || one.isNoted);
  return `| ${title} | ${share(onLine, list)} | ${share(found, list)} | ${share(noted, list)} |`;
}

function grouped(list: readonly Judged[], keyOf: (one: Judged) => string): string {
  const groups = new Map<string, Judged[]>();
  for (const one of list) groups.set(keyOf(one), [...(groups.get(keyOf(one)) ?? []), one]);
  const sorted = [...groups].sort((a, b) => b[1].length - a[1].length);
  return sorted.map(([key, ones]) => `### ${key}: ${ones.length}\n\n${shown(ones)}\n`).join("\n");
}

/** So many of a kind are enough to see what they have in common. */
const shownAtMost = 40;

function shown(list: readonly Judged[]): string {
  const lines = list.slice(0, shownAtMost).map(({ mutant }) => {
    const line = mutant.text.slice(0, mutant.start).split("\n").length;
    return `- ${mutant.file}:${line} ${mutant.shown}`;
  });
  return [...lines, ...(list.length > shownAtMost ? [`- and ${list.length - shownAtMost} more`] : [])].join(
    "\n",
  );
}

/** Why slips are not found, most frequent first, each with a slip of its kind. */
function causes(survivors: readonly Judged[], faults: number): string {
  const groups = new Map<string, Judged[]>();
  for (const one of survivors) {
    const cause = causeOf({ ...one, place: one.mutant.place });
    groups.set(cause, [...(groups.get(cause) ?? []), one]);
  }
  const rows = [...groups]
    .sort((a, b) => b[1].length - a[1].length)
    .map(([cause, ones]) => {
      const part = ((100 * ones.length) / Math.max(faults, 1)).toFixed(2);
      return `| ${cause} | ${ones.length} | ${part} | ${(ones[0]?.mutant.shown ?? "").replaceAll("|", "/")} |`;
    });
  return ["| cause | slips | % of all faults | one of them |", "|---|---|---|---|", ...rows].join("\n");
}

function section(title: string, list: readonly Judged[], keyOf: (one: Judged) => string): string {
  return `## ${title}: ${list.length}\n\n${grouped(list, keyOf)}`;
}

/** What is told of the rows of patterns whose rows are right. */
function alarms(): string[] {
  return rightPatterns().flatMap(({ name, text }) =>
    new Checker()
      .check(text)
      .findings.filter(isSure)
      .map(({ rule, message }) => `- ${name}: ${rule}: ${message}`),
  );
}

/** Fewer than the floor by more than chance makes of so many. */
function isTooFew(found: number, of: number): boolean {
  return found / of < floor - 3 * Math.sqrt((floor * (1 - floor)) / of);
}

const texts = cleanPatterns();
const tried = sampled(texts.flatMap(allMutants));
const all = tried.map(judged);
const faults = all.filter(({ verdict }) => verdict === "wrong");
const none = all.filter(({ verdict }) => verdict === "right");
const survivors = faults.filter((one) => !isFound(one));
const byPlace = ({ mutant }: Judged) => mutant.place;
const byPlaceAndReason = ({ mutant, why }: Judged) => `${mutant.place}, ${why}`;
const swallowed = survivors.filter((one) => isSwallowed({ ...one, place: one.mutant.place }));
const open = survivors.filter(({ why }) => why.startsWith("unchecked"));
const told = alarms();

console.log(
  [
    "# Slips put into right patterns",
    `${all.length} slips in ${texts.length} patterns. By a second count that shares no code with the project ${faults.length} leave a row that does not fit or does not make what it says; ${none.length} change no sum; of the others it cannot tell.`,
    [
      "| | told on its row | told at all | told, noted or left unchecked |",
      "|---|---|---|---|",
      summary("all faults", faults),
      summary(
        "numbers and counts only",
        faults.filter(({ mutant }) => numberPlaces.has(mutant.place)),
      ),
      ...places.map((place) =>
        summary(
          place,
          faults.filter(({ mutant }) => mutant.place === place),
        ),
      ),
    ].join("\n"),
    `Of the ${survivors.length} that are not found, ${swallowed.length} (${((100 * swallowed.length) / Math.max(faults.length, 1)).toFixed(2)} % of all faults) are swallowed by another meaning of a doubtful line, and ${open.length} leave a row that is told to be unchecked.`,
    causes(survivors, faults.length),
    section("Not found", survivors, byPlaceAndReason),
    section(
      "Found on another line only",
      faults.filter(({ seen }) => seen === "elsewhere"),
      byPlaceAndReason,
    ),
    section("Told although no sum changes", none.filter(isFound), byPlace),
    `## False alarms in patterns that are right: ${told.length}\n\n${told.join("\n")}`,
  ].join("\n\n"),
);
if (told.length > 0 || isTooFew(faults.length - survivors.length, faults.length)) process.exitCode = 1;
