import { say, sayings } from "../../text/say";
import { offsetAfter, type TextEdit } from "../../text/span";
import type { Finding, Fix } from "../../workspace/report";
import { type Action, type ActionSource, findingsAt, type Scene } from "./action";

/** What is done, by kind of fix. Fixes of other kinds are to be looked at one by one. */
const deeds = sayings<string>({
  count: "change the count",
  "space-length": "change the length of the spaces in the count",
  "add-count": "add the count",
  number: "change one number",
  together: "work another number of stitches together",
  "inc-or-dec": "exchange inc and dec",
  "starting-chain": "change the starting chain",
  "first-chain": "change the chain to begin in",
  "leave-rest": "leave the rest unworked",
  "in-all": "say how many more times, taking the number as in all",
  more: "say how many more times, taking the number as more",
});

/** A finding with one way to mend it. */
interface Mended {
  readonly finding: Finding;
  readonly fix: Fix;
}

/** Characters; changes all over a longer text take too long to try at every move of the caret. */
const longestText = 100_000;

/** All findings like the one here, mended alike. */
export const mendAlike: ActionSource = (scene, focus) => {
  if (scene.text.length > longestText) return [];
  const here = findingsAt(scene, focus).flatMap((finding) => {
    const [likeliest] = scene.prover.fixesOf(finding);
    return likeliest ? [{ finding, fix: likeliest }] : [];
  });
  const sorts = new Map(here.map((one) => [`${one.finding.rule} ${one.fix.kind}`, one]));
  return [...sorts.values()].flatMap((one) => alike(scene, one));
};

function alike(scene: Scene, { finding: { rule }, fix: { kind } }: Mended): Action[] {
  const deed = deeds(kind ?? "");
  if (!deed) return [];
  const all = provedTogether(
    scene,
    mendable(scene.findings, (finding, fix) => finding.rule === rule && fix.kind === kind),
  );
  if (all.length < 2) return [];
  const title = say`Mend all ${all.length} like this: ${deed}`;
  return [
    {
      kind: "mend",
      title,
      mends: all.map(({ finding }) => finding),
      preferred: false,
      edits: () => editsOf(all),
    },
  ];
}

/** Findings with the first of their fixes that is wanted. */
export function mendable(
  findings: readonly Finding[],
  isWanted: (finding: Finding, fix: Fix) => boolean,
): Mended[] {
  return findings.flatMap((finding) => {
    const fix = finding.fixes.find((one) => isWanted(finding, one));
    return fix ? [{ finding, fix }] : [];
  });
}

/** Rounds in which what cannot be mended together with the others is left out. */
const roundsAtMost = 3;

/** As many of them as can be mended together. */
export function provedTogether(scene: Scene, all: readonly Mended[]): readonly Mended[] {
  let some = all;
  for (let round = 0; round < roundsAtMost && some.length > 0; round++) {
    const bad = spoilers(scene, some);
    if (bad.size === 0) return some;
    some = some.filter((one) => !bad.has(one));
  }
  return [];
}

/** Those whose finding stays, and those behind which something new is found: what follows from a change is below it. */
function spoilers({ prover }: Scene, some: readonly Mended[]): ReadonlySet<Mended> {
  const edits = editsOf(some);
  const after = areApart(edits)
    ? prover.aftermath(
        edits,
        some.map(({ finding }) => finding),
      )
    : null;
  if (!after) return new Set(some);
  const stays = some.filter(({ finding }) => after.stays.includes(finding));
  const before = after.fresh.map(({ span }) =>
    some.findLast(({ finding }) => offsetAfter(finding.span.start, edits) <= span.start),
  );
  return new Set([...stays, ...before].map((one) => one ?? some[0]).filter((one) => one !== undefined));
}

export function editsOf(all: readonly Mended[]): TextEdit[] {
  return all.flatMap(({ fix }) => fix.edits()).sort((a, b) => a.span.start - b.span.start);
}

function areApart(edits: readonly TextEdit[]): boolean {
  return edits.every(({ span }, i) => i === 0 || (edits[i - 1] as TextEdit).span.end <= span.start);
}
