import { offsetAfter, type TextEdit, withEdits } from "../text/span";
import type { Finding, Fix, PatternReport } from "./report";

/** Characters; where a whole text is looked through at once, no more than these are checked to prove what mends it. */
const charactersAtMost = 3_000_000;

/** How many copies of a text may be checked where all that would mend it is asked for at once. */
export function copiesAtMost({ length }: string): number {
  return Math.min(200, Math.ceil(charactersAtMost / (length + 1)));
}

type Check = (text: string) => Pick<PatternReport, "findings">;

/** What is found once a change is made. */
export interface Aftermath {
  /** Of the findings it was to mend, those that are still there. */
  readonly stays: readonly Finding[];
  /** What was not found before, in offsets of the changed text. */
  readonly fresh: readonly Finding[];
}

/** Proves changes of one text: each is made in a copy, and the whole copy is checked. */
export class Prover {
  private readonly known = new Map<string, Aftermath | null>();

  constructor(
    private readonly text: string,
    private readonly findings: readonly Finding[],
    private readonly check: Check,
    /** Copies checked at most; what comes after them counts as not proved. */
    private triesLeft = Number.POSITIVE_INFINITY,
  ) {}

  /** The ways to mend a finding after which it is gone and nothing new is found, the likeliest first. */
  fixesOf(finding: Finding): Fix[] {
    return finding.fixes.filter((fix) => this.proves(fix.edits(), [finding]));
  }

  /** Whether the edits, made together, take these findings away and bring no new one. */
  proves(edits: readonly TextEdit[], mended: readonly Finding[]): boolean {
    const after = this.aftermath(edits, mended);
    return after !== null && after.stays.length === 0 && after.fresh.length === 0;
  }

  /** Null where nothing would be changed, or nothing more may be tried. */
  aftermath(edits: readonly TextEdit[], mended: readonly Finding[]): Aftermath | null {
    const key = JSON.stringify([edits, mended.map(({ rule, span }) => [rule, span.start])]);
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const after = this.triesLeft-- > 0 ? this.tried(edits, mended) : null;
    this.known.set(key, after);
    return after;
  }

  private tried(edits: readonly TextEdit[], mended: readonly Finding[]): Aftermath | null {
    const after = withEdits(this.text, edits);
    if (after === this.text) return null;
    const moved = (finding: Finding) => placed(finding, offsetAfter(finding.span.start, edits), after);
    const left = new Map<string, number>();
    for (const finding of this.findings) count(left, moved(finding), 1);
    const found = this.check(after).findings.map((one) => ({ one, key: placed(one, one.span.start, after) }));
    const fresh = found.filter(({ key }) => count(left, key, -1) < 0).map(({ one }) => one);
    const there = new Set(found.map(({ key }) => key));
    return { stays: mended.filter((finding) => there.has(moved(finding))), fresh };
  }
}

/** The rule and the line: equal for a finding before an edit and the same one after it. */
function placed({ rule }: Finding, offset: number, text: string): string {
  let line = offset;
  while (line > 0 && !isLineEnd(text.charCodeAt(line - 1))) line--;
  return `${rule} ${line}`;
}

function isLineEnd(unit: number): boolean {
  return unit === 10 || unit === 13;
}

function count(counts: Map<string, number>, key: string, by: number): number {
  const now = (counts.get(key) ?? 0) + by;
  counts.set(key, now);
  return now;
}
