import type { Sized } from "../notation/words";
import type { Span } from "../text/span";
import type { OpenMark } from "./open-mark";
import type { UnknownWord } from "./unknown-words";
import type { WrongList } from "./wrong-list";

/** What a stitch may go into. */
export interface Target {
  readonly sort: "stitch" | "space" | "chain" | "gap";
  /** Only spaces of so many chains. */
  readonly chains?: number;
  /** Only the corners of a square: its longest spaces. */
  readonly corner?: boolean;
  /** Only places of groups with this name. */
  readonly unit?: string;
  /** Named by its stitch (`next dc`) rather than as any place (`next st`, `next 5`). */
  readonly named?: boolean;
  /** The stitch it is named by. */
  readonly kind?: string;
  /** In a row further down that is named: `next sc of Rnd 2`. */
  readonly row?: number;
  /** Only this place of each group: its middle, or its stitch of that number (from 1; from -1 for the last). */
  readonly part?: "middle" | number;
  /** "Loop", which translations say of any stitch. */
  readonly loose?: boolean;
  /** Places of another piece, by its key: `14 sts of leg 1`. */
  readonly piece?: string;
}

/**
 * Where a run of stitches stops short of the end: before the last of some places, before the next one
 * or so many places `short` of it, at the mark.
 */
export type Until =
  | { readonly n: Sized; readonly of: Target; readonly remain?: boolean }
  | {
      readonly next: Target;
      readonly short?: Sized;
      /** Told by its number in the row: `to third ch-1 sp`. */
      readonly nth?: number;
      /** The one at hand is where the stitches before it stopped: the one behind it is meant. */
      readonly beyond?: boolean;
    }
  | "marked";

/** `to next ch-1 sp`, `to 2 sts before next sp`: up to a place that is told by what it is. */
export function isUntilNext(until: Until | null): until is Extract<Until, { next: Target }> {
  return until !== null && until !== "marked" && "next" in until;
}

/** Which places an instruction takes. */
export type Take =
  | {
      readonly how: "next";
      readonly n: Sized;
      readonly of: Target;
      readonly spike?: number;
      readonly first?: boolean;
      /** Named without "next": the place of that kind, wherever it is. */
      readonly bare?: boolean;
      /** `3 dc`: no place is named. */
      readonly unplaced?: boolean;
      /** Into so many chains of a loop, one by one. */
      readonly chains?: Sized;
      /** The number of stitches is that of the places: `14 sc on first leg`. */
      readonly countedOff?: boolean;
    }
  | { readonly how: "each"; readonly of: readonly Target[]; readonly until: Until | null }
  | {
      /** At the end. */
      readonly how: "last";
      readonly n: Sized;
      readonly of: Target;
      /** So many more places there have stitches of their own. */
      readonly before?: Sized;
      /** The top of a chain that opened a row: in rounds, of this one. */
      readonly onChain?: true;
      /** The choice whether the stitch is worked there or is the end of the loop before it. */
      readonly closes?: number;
      /** Behind so many chains that the row skips: those of the last space. */
      readonly over?: Sized;
    }
  | { readonly how: "from-hook"; readonly n: Sized }
  /** `chains`: of a space, as many as the row names, `same ch-5 loop`. */
  | {
      readonly how: "same";
      readonly asFirst?: boolean;
      readonly inSpace?: boolean;
      readonly chains?: number | undefined;
    }
  | { readonly how: "marked" }
  /** A stitch or chain of this same row. */
  | { readonly how: "made" }
  /** Places that were used before; of skipped ones so many, or as many as there were. */
  | { readonly how: "nowhere"; readonly n?: Sized | "skipped" }
  | { readonly how: "unknown"; readonly why: string };

/** A stitch as one row uses it. */
export interface StitchUse {
  /** The kind it is counted as. */
  readonly kind: string;
  readonly uses: number;
  readonly makes: number;
  /** A group that the pattern defines: worked into one place. */
  readonly body?: readonly Instruction[];
  readonly unit?: string;
  /** A shell, bobble, cluster…: a bracket behind it explains it. */
  readonly special?: boolean;
  /** Worked over as many places as the text names; or through two layers of a folded round. */
  readonly family?: "over" | "folded";
  /** What one of it is called in counts, where the row names it: `(shell made)`. */
  readonly begins?: string;
  /** A group nobody explained: how many stitches it holds is not known. */
  readonly undefinedGroup?: boolean;
}

export type Times =
  | { readonly how: "fixed"; readonly n: Sized }
  /** "5 times": in all, or after the first; `choice` numbers the doubt. */
  | { readonly how: "doubtful"; readonly n: Sized; readonly choice: number }
  | { readonly how: "to-end"; readonly until: Until | null }
  /** No word on how often: once, or to the end. */
  | { readonly how: "lone"; readonly choice: number };

export type WorkRun = Extract<Instruction, { op: "work" }>;

export type Instruction =
  | {
      readonly op: "work";
      readonly stitch: StitchUse;
      readonly per: Sized;
      readonly takes: readonly Take[];
      readonly span: Span;
      readonly glued?: number;
      /** So often by a sign behind it: `inc x6`. */
      readonly signed?: true;
    }
  | {
      readonly op: "group";
      readonly body: readonly Instruction[];
      readonly takes: readonly Take[];
      readonly unit?: string;
      readonly span: Span;
    }
  | {
      readonly op: "repeat";
      readonly body: readonly Instruction[];
      readonly times: Times;
      readonly cut?: number;
      /** It shapes the run that is told before it: `sc around, increasing in every 6th sc`. */
      readonly overRun?: true;
      /**
       * How the last pass ends: after so many of its own parts, a number for each option of `choice`;
       * 0: after a last whole pass; "as ever": the last pass is like the others.
       */
      readonly ending?: {
        readonly with: readonly Instruction[];
        readonly choice: number;
        readonly keeps: readonly (number | "as ever")[];
        /** Only in a round: the last pass stops where the round began. */
        readonly inRounds?: boolean;
      };
      readonly span: Span;
    }
  | {
      readonly op: "either";
      readonly choice: number;
      readonly options: readonly (readonly Instruction[])[];
      readonly span: Span;
    }
  | { readonly op: "chain"; readonly n: Sized; readonly span: Span }
  | {
      readonly op: "start";
      readonly n: Sized;
      readonly choice: number;
      readonly options: readonly StartOption[];
      readonly span: Span;
    }
  | { readonly op: "skip"; readonly takes: readonly Take[]; readonly span: Span }
  | { readonly op: "slip"; readonly takes: readonly Take[]; readonly span: Span }
  /** A chain at the edge that the row is first worked back along. */
  | { readonly op: "extend"; readonly n: Sized; readonly span: Span }
  /** What follows is one of these: `block`. */
  | { readonly op: "begins"; readonly name: string; readonly span: Span }
  /** A slip stitch that holds other work: it uses no place of the row below. */
  | { readonly op: "tie"; readonly span: Span }
  /** Where the last stitch of the repeat before it goes: `working last sc in top of turning ch`. */
  | { readonly op: "told"; readonly work: WorkRun; readonly span: Span }
  | { readonly op: "turn"; readonly span: Span }
  /** Several runs over one stretch, each for its own sort of places: what a place gets, its sort decides. */
  | {
      readonly op: "whichever";
      readonly runs: readonly EachRun[];
      readonly until: Until | null;
      readonly span: Span;
    }
  /** `ending with`: what follows takes the place of the end of the last pass; `omitting last ch-3`: nothing does. */
  | { readonly op: "ending"; readonly omits: boolean; readonly span: Span }
  | { readonly op: "other-side"; readonly span: Span }
  /** `ch 4, join into a ring`, in the row that is worked into it. */
  | { readonly op: "ring"; readonly span: Span }
  /** `join to second leg`, `in the second leg:`: what follows is worked there. */
  | { readonly op: "onto"; readonly piece: string; readonly span: Span }
  | { readonly op: "begin-at"; readonly n: Sized; readonly span: Span }
  | { readonly op: "mark"; readonly span: Span }
  | { readonly op: "change"; readonly by: Sized; readonly span: Span }
  /** `inc 1 st at each end`: the run of the row begins and ends with so many increases, or decreases. */
  | { readonly op: "ends"; readonly more: number; readonly n: Sized; readonly span: Span }
  | { readonly op: "unknown"; readonly text: string; readonly span: Span };

/** `2 dc in each ch-1 sp`, as one of several runs. */
export type EachRun = Extract<Instruction, { op: "work" | "group" }>;

/** What the chain that opens a row may be. */
export interface StartOption {
  readonly counted: boolean;
  readonly takesPlace: boolean;
  readonly kind: string;
  /** Chains left over as a space: `ch 4 (counts as dc and ch 1)`. */
  readonly space: number;
}

/** What a note in a pattern could settle: chains at the start, or words such as `5 times`, whose number is `n`. */
export type Doubt = { readonly chains: number } | { readonly said: string; readonly n: string };

/** A doubt with no settled reading in the trade. */
export interface Choice {
  /** What each option takes for granted, in a maker's words. */
  readonly options: readonly string[];
  /** How far each is from usual; equal costs mean that the trade has no usual reading. */
  readonly costs: readonly number[];
  /** For a doubt that a pattern settles in one way throughout: what it is about, and what each option says of it. */
  readonly about?: Doubt;
  readonly habit?: { readonly topic: string; readonly means: readonly string[] };
}

/** One kind of a stated count: `24 dc`. */
export interface StatedTerm {
  readonly n: Sized;
  /** The noun in lower case, "" where there is none. */
  readonly noun: string;
  /** The noun as the trade spells it. */
  readonly word: string;
  readonly sort: "any" | "stitch" | "space" | "chain" | "unit" | "turning-chain";
  readonly chains?: number;
}

/** A row's text, understood as far as it goes. */
export interface RowPlan {
  /** What all its spans are of. */
  readonly text: string;
  readonly instructions: readonly Instruction[];
  readonly choices: readonly Choice[];
  readonly stated: readonly StatedTerm[] | null;
  /** The row has a count of its own, which is set aside where it is one of several that are worked in turn. */
  readonly hadCount?: boolean;
  readonly statedSpan: Span | null;
  /** The chain that ends this row and opens the next one. */
  readonly carried: readonly Instruction[];
  readonly carriedDeclared: { readonly counts: "yes" | "no"; readonly space: number } | null;
  /** The chain that the row itself begins with and is worked back along. */
  readonly foundation: Sized | null;
  readonly turns: boolean;
  readonly joins: boolean;
  /** New yarn is joined before anything is worked, at a place that is told. */
  readonly joinsAnew: boolean;
  /** Words that matter and were not understood. */
  readonly unknown: readonly UnknownWord[];
  /** Why nothing of the row can be worked out, where that is so. */
  readonly outOfReach: string | null;
  /** A list of sizes that has not a number for each. */
  readonly wrongList: WrongList | null;
  /** A stitch that goes over another number of stitches than it is explained over. */
  readonly otherOver: OtherOver | null;
  /** A row named by the instructions: `Rep Row 2`. */
  readonly copies: CopyOf | null;
  /** `in leftover front loops of Rnd 2`. */
  readonly onRow: number | null;
  readonly onPiece: readonly string[];
  readonly mentions: ReadonlySet<string>;
  /** A bracket or an asterisk without its fellow. */
  readonly openMark: OpenMark | null;
}

export interface OtherOver {
  readonly span: Span;
  readonly explained: number;
}

export interface CopyOf {
  readonly rows: readonly number[] | "last";
  readonly times: Sized | null;
  readonly open: boolean;
  readonly span: Span;
}

/** All that a list of instructions takes, in the order of its text. */
export function takesIn(list: readonly Instruction[]): Take[] {
  const takes: Take[] = [];
  for (const one of list) collectTakes(one, takes);
  return takes;
}

/** Asked of every row again and again: nothing but the result is made. */
function collectTakes(one: Instruction, takes: Take[]): void {
  if ("takes" in one) takes.push(...one.takes);
  else for (const list of listsIn(one)) for (const inner of list) collectTakes(inner, takes);
}

const nothing: readonly (readonly Instruction[])[] = [];

function listsIn(one: Instruction): readonly (readonly Instruction[])[] {
  if (one.op === "either") return one.options;
  if (one.op === "repeat") return one.ending ? [one.body, one.ending.with] : [one.body];
  return one.op === "whichever" ? [one.runs] : nothing;
}

/** What a take says of its places; none for those told otherwise. */
export function targetsOf(take: Take): readonly Target[] {
  if (take.how === "each") return take.of;
  return take.how === "next" || take.how === "last" ? [take.of] : [];
}

/** So many stitches, whichever come next: `2 sts`. */
export function isPlainNext(take: Take): take is Extract<Take, { how: "next" }> {
  return take.how === "next" && take.of.sort === "stitch" && !take.of.named;
}

/** The other pieces that instructions work on, in the order they are named. */
export function piecesIn(list: readonly Instruction[]): readonly string[] {
  const named = list.flatMap((one, i) =>
    one.op === "onto"
      ? takesIn(list.slice(i)).some((take) => targetsOf(take).length > 0)
        ? [one.piece]
        : []
      : takesIn([one]).flatMap((take) => targetsOf(take).flatMap(({ piece }) => piece ?? [])),
  );
  return [...new Set(named)];
}

/** The row further down that instructions begin on: its places are theirs, not those of the row below; null for none. */
export function rowIn(list: readonly Instruction[]): number | null {
  const first = takesIn(list).flatMap(targetsOf);
  const rows = new Set(first.flatMap(({ row }) => row ?? []));
  return rows.size === 1 ? (first[0]?.row ?? null) : null;
}

/** The number for a size; a single number holds for all. */
export function forSize(sized: Sized, size: number): number | null {
  return sized.length === 1 ? (sized[0] ?? null) : (sized[size] ?? null);
}
