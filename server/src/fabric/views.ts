import { keptBy } from "../text/kept-by";
import { say } from "../text/say";
import type { Below, View } from "./below";
import { slips } from "./bind-stated";
import { edgeGapsApart, edgePairsAsGroups, gapsApart, groupsApart, halvesApart, hasHalves } from "./groups";
import { isPlainNext, type RowPlan, type Target, takesIn, targetsOf, type Until } from "./instructions";
import type { RowSetting, State } from "./outcome";
import { chainByChain, countPlaces, type Run, runsOf, type Strip, spaces, stitches } from "./strip";

/** One way to see the places below: what the walker is told, and how closely they are looked at. */
export interface ViewOption {
  readonly view: View;
  readonly closeness: "as they are" | "chain by chain" | "half by half" | "edges apart";
  readonly cost: number;
  readonly says: readonly string[];
}

/** Every usual way to see the places that a row finds; the row's words, its fit or its count decide. */
export function viewsOf(plan: RowPlan, state: State, setting: RowSetting): ViewOption[] {
  // Most rows: nothing in their words or their places leaves a choice.
  if (!askedBy(plan).isOpen && !hasSpaces(state)) return [plainView(setting)];
  return placeViews(plan, state, setting)
    .flatMap((one) => withSlips(one, plan, setting))
    .flatMap((one) => withGroupsLeft(one, plan, state))
    .flatMap((one) => withKinds(one, plan, state))
    .flatMap((one) => withHalves(one, state))
    .flatMap((one) => withEdges(one, plan, state))
    .flatMap((one) => withReturn(one, plan));
}

/** What the words of a row say of the places below: all of it is asked of most rows, and kept together. */
class Asked {
  readonly targets: readonly Target[];
  /** `in next sp between groups`. */
  readonly namesGaps: boolean;
  /** It tells, or where a run in it stops, one place of a group from the others. */
  readonly namesParts: boolean;
  /** The kinds of stitches it works into, where it names each by its kind. */
  readonly kinds: ReadonlySet<string> | null;
  /** It works into spaces or parts of groups, or makes chains: it may pass stitches. */
  readonly leadsOver: boolean;
  /** Slip stitches may count, an oval may return, and a row that leads over stitches may pass those that it does not name. */
  readonly isOpen: boolean;

  constructor({ instructions }: RowPlan) {
    this.targets = takesIn(instructions).flatMap(targetsOf);
    this.namesGaps = this.targets.some(({ sort, unit }) => sort === "gap" && unit !== undefined);
    this.namesParts =
      this.targets.some(({ part }) => part !== undefined) || stopsIn(instructions).some(hasPart);
    this.kinds = kindsIn(instructions);
    this.leadsOver =
      this.targets.some(({ sort, part }) => sort === "space" || part !== undefined) ||
      makesChains(instructions);
    this.isOpen =
      instructions.some((one) => one.op === "other-side" || slips(one)) ||
      this.namesGaps ||
      (this.kinds !== null && this.leadsOver);
  }
}

const askedBy = keptBy((plan: RowPlan) => new Asked(plan));

function hasSpaces(state: State): boolean {
  return state.some((below) => below !== null && countPlaces(below.strip, spaces) > 0);
}

function plainView({ flat }: RowSetting): ViewOption {
  const view: View = {
    stMeans: "stitch",
    returns: "no",
    slipCounts: false,
    rotates: !flat,
    leavesGroups: false,
    skipsChains: false,
    kinds: null,
  };
  return { view, closeness: "as they are", cost: 0, says: [] };
}

function placeViews(plan: RowPlan, state: State, setting: RowSetting): ViewOption[] {
  const plainly = plainView(setting);
  const { view } = plainly;
  const chainwise = { ...plainly, closeness: "chain by chain" } as const;
  const mentions = mentionsOf(plan);
  const chains = mentions.chains || plan.mentions.has("ch");
  if (!hasSpaces(state)) return [plainly];
  if (chains && (mentions.spaces || mentions.passesChains))
    return [plainly, chainwise, ...overChains(plan, state, plainly)];
  // `ch 2, dc in next dc, ch 2, sk 2 ch, dc in next ch`: only the last chains are those of the turning chain.
  if (chains) return askedBy(plan).kinds ? [chainwise, { ...plainly, cost: 0.1 }] : [chainwise];
  if (mentions.spaces) return [plainly, ...overChains(plan, state, plainly)];
  const any = { ...view, stMeans: "any" } as const;
  return [
    plainly,
    { ...chainwise, view: any, cost: 0.5, says: [say`the chains are worked one by one`] },
    { ...plainly, view: any, cost: 0.6, says: [say`each chain space is worked as a stitch`] },
  ];
}

/** `ch 2, sk 2 sts, dc in next dc`, over a row with ch-2 spaces. */
function overChains(plan: RowPlan, state: State, plainly: ViewOption): ViewOption[] {
  const skipped = skippedIn(plan);
  const isAsMany = (run: Run): boolean => spaces(run) && skipped.has(run.chains ?? 1);
  if (skipped.size === 0 || !stripsOf(state).some((strip) => runsOf(strip).some(isAsMany))) return [];
  const says = [say`the stitches that are skipped may be chains`];
  return [{ ...plainly, view: { ...plainly.view, skipsChains: true }, cost: 0.5, says }];
}

const skippedIn = keptBy((plan: RowPlan): ReadonlySet<number | null> => new Set(skips(plan.instructions)));

function skips(list: RowPlan["instructions"]): (number | null)[] {
  return list.flatMap((one) => {
    if (one.op === "repeat") return skips(one.body);
    if (one.op !== "skip") return [];
    return one.takes.flatMap((take) => (isPlainNext(take) ? take.n : []));
  });
}

function withSlips(one: ViewOption, plan: RowPlan, setting: RowSetting): ViewOption[] {
  if (isSlipFabric(plan)) return [{ ...one, view: { ...one.view, slipCounts: true, rotates: false } }];
  const opening = plan.instructions.find(({ op }) => !["turn", "mark", "unknown"].includes(op));
  const travels =
    opening?.op === "slip" && !setting.flat && opening.takes.every((take) => take.how === "next");
  const hasCount = plan.stated !== null || plan.hadCount === true;
  if (travels || !hasCount || !plan.instructions.some(slips)) return [one];
  const view = { ...one.view, slipCounts: true, rotates: false };
  return [one, { ...one, view, cost: one.cost + 1, says: [...one.says, say`the slip stitches are counted`] }];
}

/** `Sl st in each st around` and nothing else: slip stitches are its stitches. */
function isSlipFabric({ instructions }: RowPlan): boolean {
  const made = instructions.filter(({ op }) => !["turn", "mark", "start"].includes(op));
  return made.length > 0 && made.every(({ op }) => op === "slip");
}

/** `shell in shell, ch 2, dc in next dc`: the dc may be the shell's own, or the next one behind it. */
function withGroupsLeft(one: ViewOption, plan: RowPlan, state: State): ViewOption[] {
  const spaced = stripsOf(state).some((strip) =>
    runsOf(strip).some((run) => run.sort === "space" && run.size !== undefined),
  );
  const works = mentionsOf(plan);
  if (!spaced || !works.spaces || !works.stitches || one.closeness === "chain by chain") return [one];
  const says = [...one.says, say`behind a chain, the next stitch is none of the group that was worked into`];
  return [one, { ...one, view: { ...one.view, leavesGroups: true }, cost: one.cost + 0.3, says }];
}

/** `sc in next ch-4 lp, dc in next dc`: stitches of other kinds may lie between, and be passed. */
function withKinds(one: ViewOption, plan: RowPlan, state: State): ViewOption[] {
  const { kinds, leadsOver } = askedBy(plan);
  if (kinds === null || !leadsOver || one.closeness === "chain by chain") return [one];
  const there = new Set(
    stripsOf(state)
      .flatMap(runsOf)
      .filter(stitches)
      .map(({ kind }) => kind),
  );
  if (there.size <= kinds.size || ![...kinds].every((kind) => there.has(kind))) return [one];
  const says = [...one.says, say`stitches that the row does not name are passed over`];
  return [one, { ...one, view: { ...one.view, kinds }, cost: one.cost + 0.2, says }];
}

/** Chains lead over what lies under them. */
function makesChains(list: RowPlan["instructions"]): boolean {
  return list.some((one) => one.op === "chain" || (one.op === "repeat" && makesChains(one.body)));
}

function kindsIn(instructions: RowPlan["instructions"]): ReadonlySet<string> | null {
  // The last stitch is told by where it is.
  const along = takesIn(instructions).filter((take) => take.how !== "last" || take.of.named);
  const named = along.flatMap(targetsOf).filter(({ sort, part }) => sort === "stitch" && part === undefined);
  return named.length > 0 && named.every(({ kind }) => kind !== undefined)
    ? new Set(named.map(({ kind }) => kind as string))
    : null;
}

/** A loop with a picot in it is one loop, or a chain space on each side of the picot. */
function withHalves(one: ViewOption, state: State): ViewOption[] {
  if (one.closeness !== "as they are" || !stripsOf(state).some(hasHalves)) return [one];
  const says = [...one.says, say`the chains on each side of a picot are two spaces`];
  return [one, { ...one, closeness: "half by half", cost: one.cost + 0.4, says }];
}

/** The two stitches at an edge are a group like those beside them, or none. */
function withEdges(one: ViewOption, plan: RowPlan, state: State): ViewOption[] {
  if (one.closeness !== "as they are" || one.view.rotates || !askedBy(plan).namesGaps) return [one];
  if (stripsOf(state).every((strip) => edgePairsAsGroups(strip) === strip)) return [one];
  const says = [...one.says, say`the two stitches at an edge are no group`];
  return [one, { ...one, closeness: "edges apart", cost: one.cost + 0.3, says }];
}

/** Whether an oval goes on into its first chain again. */
function withReturn(one: ViewOption, plan: RowPlan): ViewOption[] {
  if (plan.instructions.every(({ op }) => op !== "other-side")) return [one];
  const goesOn = firstIsSingle(plan);
  const returning = { ...one.view, returns: "first" as const };
  const under = { ...one.view, returns: "opening" as const };
  const opened = plan.instructions.some(
    (step) => step.op === "start" && step.options.some(({ counted }) => counted),
  );
  return [
    { ...one, cost: one.cost + (goesOn ? 0.1 : 0) },
    { ...one, cost: one.cost + (goesOn ? 0 : 0.1), view: returning },
    ...(opened ? [{ ...one, cost: one.cost + 0.3, view: under }] : []),
  ];
}

/** One stitch in the first chain leaves room for more: the round comes back into it. */
function firstIsSingle(plan: RowPlan): boolean {
  const first = plan.instructions.find((instruction) => instruction.op === "work");
  return first?.op !== "work" || first.per[0] === 1;
}

function stripsOf(state: State): Strip[] {
  return state.flatMap((below) => (below === null ? [] : [below.strip]));
}

interface Mentions {
  readonly spaces: boolean;
  readonly chains: boolean;
  /** The only chains it names are passed: `sk 2 ch, dc in next ch of turning ch`. */
  readonly passesChains: boolean;
  readonly stitches: boolean;
}

function isChain({ sort }: Target): boolean {
  return sort === "chain";
}

/** What sorts of places a row names. */
const mentionsOf = keptBy((plan: RowPlan): Mentions => {
  const all = askedBy(plan).targets;
  const passed = takesIn(plan.instructions.filter(({ op }) => op === "skip")).flatMap(targetsOf);
  const worked = takesIn(plan.instructions.filter(({ op }) => op !== "slip")).flatMap(targetsOf);
  return {
    spaces: all.some(({ sort }) => sort === "space"),
    chains: worked.some(isChain),
    passesChains: passed.some(isChain) && all.filter(isChain).length === passed.filter(isChain).length,
    stitches: worked.some(({ sort }) => sort === "stitch"),
  };
});

function stopsIn(list: RowPlan["instructions"]): (Until | null)[] {
  return list.flatMap((one): (Until | null)[] => {
    if (one.op === "repeat")
      return [...stopsIn(one.body), ...(one.times.how === "to-end" ? [one.times.until] : [])];
    return "takes" in one ? one.takes.map((take) => (take.how === "each" ? take.until : null)) : [];
  });
}

function hasPart(until: Until | null): boolean {
  if (until === null || typeof until === "string") return false;
  return ("next" in until ? until.next : until.of).part !== undefined;
}

/** The places below as closely as the row looks at them. */
export function closely(plan: RowPlan, { closeness, view }: ViewOption, below: Below): Below {
  const { strip } = below;
  if (closeness === "chain by chain") return { ...below, strip: chainByChain(strip) };
  if (closeness === "half by half") return { ...below, strip: halvesApart(strip) };
  const { targets, namesGaps, namesParts } = askedBy(plan);
  const paired = closeness === "edges apart" || view.rotates || !namesGaps ? strip : edgePairsAsGroups(strip);
  const parted = partedBy(targets, paired, view);
  const close = namesParts ? groupsApart(parted) : parted;
  return close === strip ? below : { ...below, strip: close };
}

/** Without chains between them, groups are parted by nothing but the space itself. */
function partedBy(all: readonly Target[], strip: Strip, { rotates }: View): Strip {
  const between = all.some(({ sort, unit }) => sort === "gap" && unit !== undefined);
  const bare = all.some(
    ({ sort, chains, part }) => sort === "space" && chains === undefined && part === undefined,
  );
  if (!between && !(bare && countPlaces(strip, spaces) === 0)) return strip;
  const parted = gapsApart(strip, rotates);
  // `1 tr in first sp, *3 tr in next sp between groups*`: the first space is told apart from those.
  return between && bare && !rotates ? edgeGapsApart(parted) : parted;
}
