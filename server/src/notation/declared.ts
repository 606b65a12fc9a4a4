/** A chain that stands for a stitch and a space. */
export interface TallStart {
  readonly kind: string;
  readonly space: number;
}

/** What a pattern says about chains that open rows, by their length; and other settled readings. */
export interface Conventions {
  /** Chains of the opening chain → whether it counts as a stitch. */
  readonly startCounts: ReadonlyMap<number, boolean>;
  /** "5 times" as this pattern uses it. */
  readonly timesMeans: "in-all" | "more" | null;
  /** Said in single rows and never otherwise. */
  readonly habits: ReadonlyMap<number, boolean>;
  /** `ch 4 (counts as dc and ch 1)`, said in a row: the stitch, and the chains of the space behind it. */
  readonly tallStarts: ReadonlyMap<number, TallStart>;
}

const counts =
  /\bignored?\b|\b(?:does not|do not|doesn['’]t|don['’]t|not|never)\s+count|counts?\b|counted\b|is (?:the )?first (?:dc|hdc|sc|tr|st)|\b(?:not?|never) (?:(?:a|as) )?(?:sts?|stitch(?:es)?)\b|\bstands?\s+for\s+(?:a|an|one|1|the\s+(?:first|1st))\b|\b(?:takes?\s+the\s+place\s+of|replaces?)\s+(?:the\s+)?(?:first|1|one|an?)\b/i;

/** Whether a sentence says of a chain what it counts as, and is no chain to make. */
export function tellsOfChain(sentence: string): boolean {
  return counts.test(sentence) || /\bat (?:the )?(?:start|beg\w*)\s+of\b/i.test(sentence);
}

/** Reads sentences such as "Turning ch-3 counts as first dc of every row. Ch-1 does not count." */
export function readConventions(sentences: readonly string[]): Omit<Conventions, "habits" | "tallStarts"> {
  const startCounts = new Map<number, boolean>();
  let timesMeans: Conventions["timesMeans"] = null;
  for (const sentence of sentences) {
    if (/repeat.*times.*(?:in all|in total)/i.test(sentence)) timesMeans ??= "in-all";
    if (/repeat.*times.*(?:more|after the first)/i.test(sentence)) timesMeans ??= "more";
    if (counts.test(sentence)) readClauses(sentence, startCounts);
  }
  for (const sentence of sentences)
    for (const [n, counts] of ofAnyLength(sentence)) if (!startCounts.has(n)) startCounts.set(n, counts);
  return { startCounts, timesMeans };
}

/** Chains that open a row, without their length: those of one chain count nowhere. */
const anyOpening =
  /^\W*(?:(?:please\s+)?note(?:\s+that)?:?\s+)?(?:the\s+|all\s+|each\s+|every\s+)*(?:turning|starting|beginning|beg)(?:\s+ch(?:ain)?s?)?\s+(?:(?:and|or|&)\s+(?:turning|starting|beginning)\s+)?ch(?:ain)?s?\s+(?:(does\s+not|do\s+not|doesn['’]t|don['’]t|never|(?:is|are)\s+not)\s+count(?:ed)?|counts?|(?:is|are)\s+counted)\s+as\s+(?:an?\s+|the\s+(?:first\s+)?)?(?:sts?|stitch(?:es)?)\b(?!.*\b(?:unless|except|otherwise|first\s+row|row\s+1)\b)/i;
const lengths = [2, 3, 4];

/** `Turning chains do not count as a stitch`: of whatever length. */
function ofAnyLength(sentence: string): (readonly [number, boolean])[] {
  const match = anyOpening.exec(sentence);
  return match ? lengths.map((n) => [n, match[1] === undefined] as const) : [];
}

/** "Ch 3 counts as a dc, ch 1 does not": each clause for the chains it names, or those named before it. */
function readClauses(sentence: string, startCounts: Map<number, boolean>): void {
  let named: number[] = [];
  for (const clause of sentence.split(/[,:()]|(?=;)|\bbut\b|\band\b/i)) {
    // Behind a semicolon begins a statement of its own.
    if (clause.startsWith(";")) named = [];
    // `ch 4 counts as dc + ch 1`: what it stands for is no chain that is spoken of.
    const subject = clause.replace(
      /\b(?:counts?|counted|counting)\s+as\b.*|\b(?:stands?\s+for|takes?\s+the\s+place\s+of|replaces?)\b.*/i,
      "",
    );
    for (const match of subject.matchAll(/\bch(?:ain)?\.?[\s-]*(\d+)|\b(\d+)\s*-?\s*ch\b/gi))
      named.push(Number(match[1] ?? match[2]));
    if (!counts.test(clause)) continue;
    for (const n of named) startCounts.set(n, !/\b(?:not?|never|ignored?)\b|n['’]t\b/i.test(clause));
    named = [];
  }
}
