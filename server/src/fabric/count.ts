import { say } from "../text/say";
import { isFilled } from "./bind-count";
import { forSize, type Instruction, type RowPlan, type StatedTerm } from "./instructions";
import type { Steps } from "./steps";

/** Totals of one worked row, by what they are. */
export interface Tally {
  /** Stitches by kind as written. */
  readonly stitches: Map<string, number>;
  /** Chain spaces by their chains. */
  readonly spaces: Map<number, number>;
  /** The parts of loops that a picot or other work holds together, by the chains of each. */
  readonly halves: Map<number, number>;
  /** Those that stand by themselves: in no group. */
  readonly spacesAlone: Map<number, number>;
  /** Single chains in all spaces. */
  chains: number;
  /** Groups and special stitches by name; groups without a name are `group`. */
  readonly units: Map<string, number>;
  /** How many stitches each of those with a name has. */
  readonly sizes: Map<string, number>;
  /** Groups without a name by how many stitches each has. */
  readonly groups: Map<number, number>;
  /** Stitches that belong to no group, by kind. */
  readonly loose: Map<string, number>;
  /** Those that stand by themselves: in no group, named or not. */
  readonly alone: Map<string, number>;
}

/** Adds up the steps of a row. */
export function tally(steps: readonly Steps[]): Tally {
  const sum: Tally = {
    stitches: new Map(),
    spaces: new Map(),
    halves: new Map(),
    spacesAlone: new Map(),
    chains: 0,
    units: new Map(),
    sizes: new Map(),
    groups: new Map(),
    loose: new Map(),
    alone: new Map(),
  };
  addSteps(sum, steps, 1);
  return sum;
}

function addSteps(sum: Tally, steps: readonly Steps[], times: number): void {
  for (const step of steps) {
    if ("steps" in step) {
      addSteps(sum, step.steps, times * step.times);
      continue;
    }
    const n = step.n * times;
    if (step.sort === "stitch") {
      add(sum.stitches, step.kind, n);
      if (step.unit === undefined && step.begins === undefined) add(sum.alone, step.kind, n);
      if ((step.unit ?? "") === "" && (step.begins ?? "group") === "group") add(sum.loose, step.kind, n);
    }
    if (step.sort === "space") {
      add(sum.spaces, step.chains ?? 1, n);
      if (step.unit === undefined) add(sum.spacesAlone, step.chains ?? 1, n);
      if (step.halves) add(sum.halves, (step.chains ?? 1) / step.halves, n * step.halves);
      sum.chains += (step.chains ?? 1) * n;
    }
    if (!step.begins) continue;
    const groups = step.sort === "stitch" ? n / step.perPlace : n;
    add(sum.units, step.begins, groups);
    if (step.begins === "group") add(sum.groups, step.perPlace, groups);
    else sum.sizes.set(step.begins, step.perPlace);
  }
}

function add<K>(map: Map<K, number>, key: K, n: number): void {
  map.set(key, (map.get(key) ?? 0) + n);
}

export function sumOf(values: Iterable<number>): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}

/** A row's count as its pattern counts: what each stated term comes to. */
export interface Counted {
  readonly matches: boolean;
  readonly makes: number;
  readonly kinds: ReadonlyMap<string, number>;
  /** The count has chains in it. */
  readonly chainsCounted: boolean;
  /** The count names one stitch, and is right only if others are counted with it. */
  readonly mixed?: true;
  /** Stitches that make no whole block of filet. */
  readonly over?: number;
  /** A noun that nothing made answers to. */
  readonly unknownNoun: string | null;
  /** Another meaning of the count, where both are usual: chains counted where spaces are meant. */
  readonly doubt: {
    readonly makes: number;
    readonly kinds: ReadonlyMap<string, number>;
    readonly says: string;
  } | null;
}

/**
 * Compares what was made with what the row states, for one size; `passes`: how often its repeats were worked;
 * `width`: how many columns the meshes of the piece are wide.
 */
export function compare(
  stated: readonly StatedTerm[] | null,
  sum: Tally,
  size: number,
  passes: readonly number[] = [],
  width: number | null = null,
): Counted {
  const total = sumOf(sum.stitches.values());
  if (stated === null)
    return {
      matches: true,
      makes: total || sumOf(sum.spaces.values()),
      kinds: plainKinds(sum),
      chainsCounted: false,
      unknownNoun: null,
      doubt: null,
    };
  const values = stated
    .map((term) => termValue(term, stated, sum, size, width))
    // `…; rep from * 4 more times. 5 petals`: what each pass makes may be called anything.
    .map((value) =>
      value.unknown && value.stated !== null && passes.includes(value.stated)
        ? { ...value, n: value.stated, unknown: false }
        : value,
    )
    .map((value) => (value.unknown && passes.length === 0 ? asGroups(value, sum) : value));
  const kinds = new Map(values.map((value) => [value.key, value.n]));
  const over = sumOf(values.map((value) => value.over ?? 0));
  const matches = over === 0 && values.every((value) => value.stated === null || value.n === value.stated);
  const inTotal = new Set(addedUp(stated));
  const makes = sumOf(values.flatMap(({ n }, i) => (inTotal.has(stated[i] as StatedTerm) ? [n] : [])));
  const unknownNoun = values.find((value) => value.unknown)?.key ?? null;
  return {
    matches,
    makes,
    kinds,
    ...(over > 0 ? { over } : {}),
    ...(matches && isMixed(stated, sum, size) ? { mixed: true } : {}),
    chainsCounted: values.some((value) => value.chains),
    unknownNoun,
    doubt: values.find((value) => value.doubt)?.doubt ?? null,
  };
}

const besides: ReadonlySet<StatedTerm["sort"]> = new Set(["space", "chain", "turning-chain"]);

/** The terms of a count that come to its total: `12 sts, 4 of them hdc` has it in one, `8 sc, 2 shells, 1 ch-3 sp` in two. */
export function addedUp(stated: readonly StatedTerm[]): readonly StatedTerm[] {
  const all = stated.filter(({ sort }) => sort === "any");
  if (all.length > 0) return all;
  const isBeside = ({ sort, noun }: StatedTerm): boolean =>
    besides.has(sort) || (sort === "unit" && /picot|loop|arch|eyelet|hole/.test(noun));
  const counted = stated.filter((term) => !isBeside(term));
  return counted.length > 0 ? counted : stated;
}

/** What a count comes to in one size; null where a term has no number for it. */
export function statedTotal(stated: readonly StatedTerm[], size: number): number | null {
  const all = addedUp(stated).map((term) => forSize(term.n, size));
  return all.reduce((sum, n) => (sum === null || n === null ? null : sum + n), 0);
}

/** Of one stitch more are stated than there are of it, however it is told: others are counted with it, or in its place. */
function isMixed(stated: readonly StatedTerm[], sum: Tally, size: number): boolean {
  const [term, ...others] = stated.filter(({ sort }) => sort !== "space" && sort !== "chain");
  if (term?.sort !== "stitch" || others.length > 0) return false;
  const n = forSize(term.n, size);
  const exact = sum.stitches.get(term.word) ?? 0;
  if (exact === n || sum.units.get(term.word) === n || familyOf(term.word, sum) === n) return false;
  // Where there is none of it, what there is may be called so.
  return exact > 0 || (sum.units.size === 0 && sumOf(sum.stitches.values()) === n);
}

/** A stitch that begins a row in its own way is one like the others: `standing dc`. */
function startingOnes(noun: string, { stitches }: Tally): number {
  if (stitches.size < 2) return 0;
  const first = ["standing", "chainless", "stacked", "first"].map(
    (how) => stitches.get(`${how} ${noun}`) ?? 0,
  );
  return sumOf(first);
}

/** Stitches of a name, those included that have it for an ending: `FPdc` are dc too. */
function familyOf(noun: string, { stitches }: Tally): number {
  return sumOf([...stitches].filter(([kind]) => kind === noun || kind.endsWith(noun)).map(([, n]) => n));
}

/** Whether each term has a number for every size that works the row; `worked` is null for the others. */
export function statesEverySize(stated: readonly StatedTerm[] | null, worked: readonly unknown[]): boolean {
  const isWhole = ({ n }: StatedTerm): boolean =>
    n.length === 1 || worked.every((one, size) => one === null || forSize(n, size) !== null);
  return stated === null || stated.every(isWhole);
}

/** Every kind made: stitches by name, spaces by their chains. */
export function plainKinds(sum: Tally): Map<string, number> {
  const kinds = new Map(sum.stitches);
  for (const [chains, n] of sum.spaces) kinds.set(`ch-${chains} sp`, n);
  return kinds;
}

interface TermValue {
  readonly key: string;
  readonly n: number;
  readonly stated: number | null;
  readonly chains: boolean;
  readonly unknown: boolean;
  readonly over?: number;
  readonly doubt: Counted["doubt"];
}

function termValue(
  term: StatedTerm,
  all: readonly StatedTerm[],
  sum: Tally,
  size: number,
  width: number | null,
): TermValue {
  const stated = forSize(term.n, size);
  const base = { key: term.noun, stated, chains: false, unknown: false, doubt: null };
  const stitches = sumOf(sum.stitches.values());
  switch (term.sort) {
    case "any": {
      const key = term.noun === "" || all.length === 1 ? mainKind(sum) : term.noun;
      const withSpaces = stitches + sumOf(sum.spaces.values());
      if (stated !== null && stated !== stitches && stated === stitches + sum.chains && sum.chains > 0)
        return { ...base, key, n: stated, chains: true };
      if (stated !== null && stated !== stitches && stated === withSpaces && sum.spaces.size > 0)
        return { ...base, key, n: stated, chains: true };
      return { ...base, key, n: stitches };
    }
    case "stitch":
      return {
        ...base,
        n:
          stitchesNamed(term.word, all, sum, stated) -
          (all.some((other) => other.sort === "turning-chain") ? 1 : 0),
      };
    case "space":
      return { ...base, key: term.noun, n: spacesNamed(term, all, sum, stated) };
    case "chain":
      return chainTerm(base, sum, stated);
    case "turning-chain":
      return { ...base, n: 1 };
    case "unit":
      return blocksInFilet(term, all, base, sum, width) ?? unitTerm(term, base, sum, stated);
  }
}

function mainKind(sum: Tally): string {
  let best = "sts";
  let most = -1;
  for (const [kind, n] of sum.stitches) if (n > most) [best, most] = [kind, n];
  return best;
}

function stitchesNamed(noun: string, all: readonly StatedTerm[], sum: Tally, stated: number | null): number {
  const exact = (sum.stitches.get(noun) ?? sum.units.get(noun) ?? 0) + startingOnes(noun, sum);
  const units = sum.units.get(noun) ?? 0;
  if (exact === stated || units === stated) return stated ?? exact;
  const loose = sum.loose.get(noun) ?? 0;
  const grouped = all.some((other) => other.sort === "unit");
  const alone = sum.alone.get(noun) ?? 0;
  if (grouped) return alone === stated ? alone : loose;
  const family = familyOf(noun, sum);
  if (family === stated) return family;
  const total = sumOf(sum.stitches.values()) - (sum.stitches.get("sl st") ?? 0);
  const others = all.filter((term) => term.sort === "stitch" || term.sort === "any" || term.sort === "unit");
  return others.length === 1 && (total === stated || exact === 0) ? total : units || exact;
}

function spacesNamed(
  term: StatedTerm,
  all: readonly StatedTerm[],
  sum: Tally,
  stated: number | null,
): number {
  const of = (chains: number): number => sum.spaces.get(chains) ?? 0;
  if (term.chains !== undefined) {
    const apart = of(term.chains) + (sum.halves.get(term.chains) ?? 0);
    if (apart === stated) return apart;
    // `4 shells, 4 ch-3 sps`: those between the shells.
    const between = sum.spacesAlone.get(term.chains) ?? 0;
    return between === stated && all.some(({ sort }) => sort === "unit") ? between : of(term.chains);
  }
  const every = sumOf(sum.spaces.values());
  const named = new Set(all.map((other) => other.chains).filter((n) => n !== undefined));
  const rest = sumOf([...sum.spaces].filter(([chains]) => !named.has(chains)).map(([, n]) => n));
  const longest = Math.max(0, ...sum.spaces.keys());
  const candidates = /corner/i.test(term.noun) ? [of(longest), rest, every] : [rest, every];
  return candidates.find((n) => n === stated) ?? candidates[0] ?? 0;
}

function chainTerm(base: Omit<TermValue, "n">, sum: Tally, stated: number | null): TermValue {
  const every = sumOf(sum.spaces.values());
  if (stated === every && every !== sum.chains) {
    const kinds = new Map([...sum.stitches, ["ch", sum.chains]]);
    return {
      ...base,
      key: `ch-${[...sum.spaces.keys()][0]} sp`,
      n: every,
      doubt: { makes: sumOf(sum.stitches.values()), kinds, says: say`the chains are counted one by one` },
    };
  }
  return { ...base, n: sum.chains };
}

function unitTerm(
  term: StatedTerm,
  base: Omit<TermValue, "n">,
  sum: Tally,
  stated: number | null,
): TermValue {
  const noun = term.word.replace(/(?<=x)es$|s$/, "");
  // `2 half shells`: smaller than the others.
  if (/^half\b/.test(noun) && stated !== null && stated === smallerGroups(sum)) return { ...base, n: stated };
  const called = [noun, term.word, ...sum.units.keys()].find(
    (name) =>
      sum.units.has(name) && (name === noun || name === term.word || name.replace(/e?s$/, "") === noun),
  );
  const direct = called === undefined ? undefined : sum.units.get(called);
  if (direct !== undefined && direct === stated) return { ...base, n: direct };
  // One of them may be written out: begun with the round, and finished at its end.
  const likeIt = sum.groups.get(sum.sizes.get(called ?? "") ?? 0) ?? 0;
  if (direct !== undefined && direct + likeIt === stated) return { ...base, n: stated };
  // Without a chain there is none, whatever else is made as often.
  if (noun === "picot" && sum.spaces.size === 0 && ![...sum.units.keys()].some((name) => /picot/.test(name)))
    return { ...base, n: 0 };
  const alike = [...sum.groups.values(), ...sum.units.values(), sumOf(sum.units.values())];
  const candidates = noun === "group" ? alike : isFilled(noun) ? [] : [...alike, ...sum.spaces.values()];
  // A group may be written out where its name is used besides, and a block is told by its space as well.
  const open = direct === undefined || /^(?:group|block|tile|box|square)$/.test(noun);
  if (open && stated !== null && candidates.includes(stated)) return { ...base, n: stated };
  if (direct !== undefined) return { ...base, n: direct };
  const blocks = /^(?:block|tile|box)$/.test(noun) ? cornerBlocks(sum) : null;
  if (
    direct === undefined &&
    /^(?:shell|fan|scallop|pair)$/.test(noun) &&
    sum.groups.size === 1 &&
    sum.units.size === 1
  )
    return { ...base, n: sumOf(sum.groups.values()) };
  const filled = filledMeshes(noun, sum, stated);
  if (filled !== null && (blocks === null || filled === stated)) return { ...base, n: filled };
  // Of two sorts of blocks nobody knows which are meant.
  if (blocks !== null && (filled === null || blocks === stated)) return { ...base, n: blocks };
  return { ...base, n: 0, unknown: true };
}

/** `(3 open meshes, 4 blocks)`: beside its meshes a row has nothing but blocks; what makes no whole one is over. */
function blocksInFilet(
  { word }: StatedTerm,
  all: readonly StatedTerm[],
  base: Omit<TermValue, "n">,
  { spaces, stitches, units }: Tally,
  told: number | null,
): TermValue | null {
  const common = [...spaces].reduce((a, b) => (b[1] > a[1] ? b : a), [0, 0] as [number, number])[0];
  const width = told ?? common + 1;
  const columns = sumOf(stitches.values()) - sumOf(spaces.values()) - 1;
  const isFilet = isBlock(word) && (told === null ? all.some(isMesh) : unnamed(units));
  if (!isFilet || columns < 0 || width < 2) return null;
  // A mesh of other chains is none.
  const uneven = [...spaces].map(([chains, n]) => Math.abs(chains + 1 - width) * n);
  return { ...base, n: Math.floor(columns / width), over: (columns % width) + sumOf(uneven) };
}

function unnamed(units: Tally["units"]): boolean {
  return [...units.keys()].every((name) => name === "group");
}

/** How many columns the meshes of a piece are wide, by the first of its rows that counts and makes any. */
export function meshWidth(plans: readonly (RowPlan | null)[]): number | null {
  for (const plan of plans) {
    const chains = plan?.stated?.some(isMesh) ? chainsIn(plan.instructions.slice(1)) : null;
    if (chains !== null) return chains + 1;
  }
  return null;
}

function chainsIn(list: readonly Instruction[]): number | null {
  for (const one of list) {
    const found = one.op === "chain" ? (one.n[0] ?? null) : "body" in one ? chainsIn(one.body) : null;
    if (found !== null) return found;
  }
  return null;
}

function isMesh({ sort, noun }: StatedTerm): boolean {
  return sort === "space" && /\bmesh/.test(noun);
}

export function isBlock(noun: string): boolean {
  return block.test(noun.replace(/s$/, ""));
}

const block = /^(?:(?:solid|filled|closed|full) (?:mesh|square|block|box)|block|bl|solid)$/;

/** In filet each mesh is a stitch and the chains behind it; a block has stitches in place of those; null for other work. */
function filledMeshes(noun: string, { spaces, stitches }: Tally, stated: number | null): number | null {
  if (!isBlock(noun)) return null;
  const [[chains = 0, open = 0] = [], ...others] = spaces;
  const columns = sumOf(stitches.values()) - open - 1;
  if (others.length > 0 || columns < 0) return null;
  // With no mesh open, nothing tells how wide they are: two chains or one. One alone begins a corner.
  const alike = stated !== null && stated > 1 ? [3, 2].filter((n) => columns === n * stated) : [];
  const wide = open > 0 ? [chains + 1] : alike;
  const [width] = wide;
  return width !== undefined && columns % width === 0 ? columns / width : null;
}

const isPetal = /^(?:petal|shell|fan|scallop)s?$/;

/** The groups of a row that has but one sort of them; several of them may make one petal, or one of them several. */
function asGroups(value: TermValue, { groups, units }: Tally): TermValue {
  const [n = 0, ...others] = groups.values();
  const { stated, key } = value;
  if (!stated || n === 0 || others.length > 0 || units.size > 1 || !isPetal.test(key)) return value;
  return n % stated === 0 || stated % n === 0 ? value : { ...value, n, unknown: false };
}

function smallerGroups({ groups }: Tally): number {
  const largest = Math.max(0, ...groups.keys());
  return sumOf([...groups].flatMap(([size, n]) => (size < largest ? [n] : [])));
}

/** Corner to corner, each block is a chain space with its stitches, in one place but for the first; null for other work. */
function cornerBlocks({ spaces, groups }: Tally): number | null {
  const [blocks = 0, ...others] = spaces.values();
  const inPlace = sumOf(groups.values());
  const areTold = others.length === 0 && inPlace > 0 && (blocks === inPlace || blocks === inPlace + 1);
  return areTold ? blocks : null;
}
