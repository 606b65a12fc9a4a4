import type { Conventions } from "../notation/declared";
import type { Glossary } from "../notation/other-languages";
import type { Sized, Word } from "../notation/words";
import { type Stitch, stitchOf, type Terms } from "../trade/stitches";
import type { Instruction, StitchUse, Target } from "./instructions";

/** A stitch that the pattern itself explains. */
export interface Definition {
  readonly uses: number;
  readonly makes: number;
  /** The group it is worked as, in one place. */
  readonly body?: readonly Instruction[];
  /** What it stands for, place by place along the row. */
  readonly sequence?: readonly Instruction[];
  readonly kind: string;
  /** It may be worked over other numbers of places than where it was explained. */
  readonly worksOver?: "as told";
}

export interface BindContext {
  readonly terms: Terms;
  readonly definitions: ReadonlyMap<string, Definition>;
  readonly conventions: Conventions;
  /** `(…)` with nothing behind: all in one place, where the pattern says so. */
  readonly roundMeansPlace?: boolean;
  /** The names of the sizes, where they are known already. */
  readonly sizes?: readonly string[];
  /** What words of its language are in English, where it is in another. */
  readonly glossary?: Glossary;
}

const one: Sized = [1];
const anyStitch: Target = { sort: "stitch" };

/** A name for a group of stitches in one place. */
export function isGroupName(word: string, context: BindContext): boolean {
  const family = stitchOf(word, context.terms)?.family;
  if (family === "shell" || family === "v-stitch" || groupedName.test(word)) return true;
  const defined = context.definitions.get(word);
  return defined?.body !== undefined || defined?.sequence !== undefined;
}

/** `5-dc shell`: so many stitches in one place. */
const groupedName = /^\d+-\S+ .*(?:shell|fan|group)/;

/** What a stitch word uses and makes here; null for a word that nobody explained. */
export function stitchUse(word: string, context: BindContext, last: StitchUse | null): StitchUse | null {
  const defined = context.definitions.get(word);
  if (defined)
    return {
      kind: defined.kind,
      uses: defined.uses,
      makes: defined.makes,
      // `inc = 2 sc in same st` makes sc like any others: nobody counts the times that it is worked.
      ...(stitchOf(defined.kind, context.terms)?.family === "plain" ? {} : { special: true }),
      ...(defined.worksOver ? { family: "over" as const } : {}),
      ...(defined.body ? { body: defined.body, unit: defined.kind } : {}),
    };
  const grouped = /^(\d+)-(\S+) (.+)$/.exec(word);
  if (grouped) return groupedUse(grouped, context);
  const stitch = stitchOf(word, context.terms);
  if (!stitch) return null;
  return tradeUse(word, stitch, context, last);
}

function tradeUse(word: string, stitch: Stitch, context: BindContext, last: StitchUse | null): StitchUse {
  const base = { uses: stitch.uses, makes: stitch.makes };
  if (stitch.family === "increase" || stitch.family === "decrease") {
    const named =
      stitch.base === null
        ? last && !last.special
          ? last.kind
          : context.terms === "UK"
            ? "dc"
            : "sc"
        : word.replace(/(inc|dec)$/, "").trim();
    return { kind: named, uses: stitch.uses, makes: stitch.makes };
  }
  if (stitch.family === "together") return togetherUse(word, base);
  if (stitch.family === "foundation") return { ...base, kind: word.replace(/^f/, "") };
  if (stitch.family === "start") return { ...base, kind: word.replace(/^cs/, "") };
  if (stitch.family === "cluster" || stitch.family === "picot")
    return { ...base, kind: word, special: true, ...overMany(word) };
  if (stitch.family === "v-stitch")
    return { ...base, kind: word, special: true, unit: word, body: vStitch(context) };
  if (stitch.family === "shell")
    return { ...base, kind: word, special: true, unit: word, undefinedGroup: true };
  return { kind: word, uses: stitch.uses, makes: stitch.makes };
}

/** Three and more worked together are what counts call a cluster. */
function togetherUse(word: string, base: Pick<StitchUse, "uses" | "makes">): StitchUse {
  const kind = word.replace(/\d+tog$/, "");
  return base.uses > 2 ? { ...base, kind, begins: "cluster" } : { ...base, kind };
}

/** `cluster over next 4 dc`, `4-dc cluster over next 4 dc` */
function overMany(name: string): Pick<StitchUse, "family"> {
  return name === "cluster" ? { family: "over" } : {};
}

function vStitch(context: BindContext): Instruction[] {
  const word = context.terms === "UK" ? "tr" : "dc";
  const span = { start: 0, end: 0 };
  const leg: Instruction = {
    op: "work",
    stitch: { kind: word, uses: 1, makes: 1 },
    per: one,
    takes: [{ how: "next", n: one, of: anyStitch }],
    span,
  };
  return [leg, { op: "chain", n: one, span }, leg];
}

/** `3-dc cluster` is one stitch; `5-dc shell` is five in one place. */
function groupedUse(
  [, n = "1", stitch = "dc", name = ""]: RegExpExecArray,
  context: BindContext,
): StitchUse | null {
  const kind = stitchUse(stitch, context, null);
  if (!kind) return null;
  if (!/shell|fan|group/.test(name))
    return { kind: name, uses: 1, makes: 1, special: true, ...overMany(name) };
  const span = { start: 0, end: 0 };
  const body: Instruction[] = [
    { op: "work", stitch: kind, per: one, takes: [{ how: "next", n: [Number(n)], of: anyStitch }], span },
  ];
  return { kind: name, uses: 1, makes: Number(n), special: true, unit: name, body };
}

/** `sc in each sc around, skipping picots`: they hang on the row below and are no places of it. */
export function areNoPlaces(words: readonly Word[], context: BindContext): boolean {
  const nouns = words.filter(({ cls }) => !"Xen".includes(cls));
  return (
    nouns.length > 0 &&
    nouns.every(({ cls, value }) => cls === "S" && stitchUse(value, context, null)?.makes === 0)
  );
}
