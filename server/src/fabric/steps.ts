import type { Span } from "../text/span";
import { asGroup } from "./groups";
import type { Run, Strip, StripNode } from "./strip";
import { tidy } from "./tidy";

/** One thing done: the steps of a row are these, run-length encoded and nested by loops. */
export interface Step {
  readonly kind: string;
  /** `none`: no place for the next row (skips, joins, picots, the start of a group). */
  readonly sort: "stitch" | "space" | "none";
  /** How many alike. */
  readonly n: number;
  /** Position of the first place used. */
  readonly at: number;
  /** Places newly used for every `perPlace` of them. */
  readonly uses: number;
  readonly perPlace: number;
  readonly chains?: number | undefined;
  /** The chain spaces it is made of, where something holds it together between them. */
  readonly halves?: number | undefined;
  /** The group it belongs to. */
  readonly unit?: string | undefined;
  /** Begins a group or special stitch of this name. */
  readonly begins?: string | undefined;
  /** Worked back along a chain that hangs from the row: it takes yarn, and nothing else of it counts. */
  readonly aside?: true | undefined;
  readonly span: Span;
}

export interface StepLoop {
  readonly steps: readonly Steps[];
  readonly times: number;
  /** How far the places move on with each pass. */
  readonly shift: number;
  /** Each pass is one group in one place: its name, "" for none. */
  readonly group?: string;
}

export type Steps = Step | StepLoop;

export function isStepLoop(step: Steps): step is StepLoop {
  // Asked of every step again and again: an `in` costs several times as much.
  return (step as Partial<StepLoop>).steps !== undefined;
}

/** Stitches made by steps, chains and spaces apart. */
export function countStitches(steps: readonly Steps[]): number {
  let sum = 0;
  for (const step of steps) {
    if (isStepLoop(step)) sum += countStitches(step.steps) * step.times;
    else if (step.sort === "stitch") sum += step.n;
  }
  return sum;
}

/** The places that the steps leave for the next row. */
export function stripOf(steps: readonly Steps[]): Strip {
  return tidy(nodesOf(steps));
}

function nodesOf(steps: readonly Steps[]): StripNode[] {
  return steps.flatMap((step): StripNode[] => {
    if (isStepLoop(step)) {
      const body = nodesOf(step.steps);
      const nodes = step.group === undefined ? body : asGroup(body, step.group);
      return [{ body: nodes as StripNode[], times: step.times }];
    }
    return step.sort === "none" ? [] : [runLeft(step, step.sort)];
  });
}

/** Field by field: all runs are objects of two shapes. */
function runLeft({ kind, n, chains, halves, unit, perPlace }: Step, sort: Run["sort"]): Run {
  const isSpace = sort === "space";
  if (!isSpace && unit === undefined) return { sort, kind, n };
  const isGroup = unit !== undefined && perPlace > 1;
  return {
    sort,
    kind: isSpace ? "ch" : kind,
    n,
    chains: isSpace ? (chains ?? 1) : undefined,
    halves: isSpace ? halves : undefined,
    unit,
    size: isGroup ? perPlace : undefined,
    offset: isGroup ? 0 : undefined,
  };
}

/** One stitch, space or skip of a row, with the places it stands on. */
export interface Stitch {
  readonly kind: string;
  readonly sort: Step["sort"];
  /** Position of its first place in the row below, and how many places it newly uses. */
  readonly at: number;
  readonly uses: number;
}

/** Rows with more stitches than this are not listed one by one. */
export const expandAtMost = 20_000;

/** Lists a row's steps one by one, in the order they are worked; null beyond `expandAtMost`. */
export function expand(steps: readonly Steps[]): Stitch[] | null {
  const out: Stitch[] = [];
  return list(steps, 0, out) ? out : null;
}

function list(steps: readonly Steps[], shift: number, out: Stitch[]): boolean {
  for (const step of steps) {
    if (isStepLoop(step)) {
      for (let pass = 0; pass < step.times; pass++)
        if (!list(step.steps, shift + pass * step.shift, out)) return false;
    } else if (!listStep(step, shift, out)) return false;
  }
  return true;
}

function listStep(step: Step, shift: number, out: Stitch[]): boolean {
  for (let i = 0; i < step.n; i++) {
    if (out.length >= expandAtMost) return false;
    const place = Math.floor(i / step.perPlace);
    const uses = i % step.perPlace === 0 ? step.uses : 0;
    out.push({ kind: step.kind, sort: step.sort, at: shift + step.at + place * step.uses, uses });
  }
  return true;
}
