import type { PatternContext } from "../fabric/context";
import type { FrontMatter } from "../notation/front-matter/front-matter";
import type { HookSize } from "../notation/front-matter/hooks";
import { say } from "../text/say";
import { hookSizesOf, hookSizesOfSteel, hookSizesOfUk } from "../trade/hooks";
import { type YarnWeight, yarnWeightNamed } from "../trade/yarn-weights";
import { type Gauge, type GaugeProblem, type RowsTell, readGauge } from "./gauge";
import { type StitchSize, yarnIn } from "./stitch-path";
import type { KindOfStitch, StitchPaths } from "./stitch-paths";
import {
  sizeAtGauge,
  sizeWithHook,
  thicknessByLabel,
  thicknessOf,
  usualHook,
  weightForHook,
} from "./stitch-size";
import type { YarnList } from "./yarn-list";

/** What yarn per stitch is worked out from, the best that the pattern gives. */
export interface Basis {
  readonly sort: "measured" | "swatch" | "gauge" | "hook" | "weight";
  /** `your own measure: sc 4.6 cm`. */
  readonly says: string;
  /** The room of a stitch. */
  readonly size: StitchSize;
  /** The designer's own figure by the figure of the model, for each stitch measured, by US name. */
  readonly measured: ReadonlyMap<string, number>;
  /** The same for all other stitches. */
  readonly scale: number;
  /** How far off it may well be, as a share; 0 for the designer's own measure. */
  readonly spread: number;
  /** Yarns worked as one. */
  readonly strands: number;
  readonly gauge: Gauge | null;
  readonly hookMm: number | null;
  readonly weight: YarnWeight | null;
}

/** How far estimates were off published figures (`npm run yarn`), rounded up to a twentieth. */
const spreads = { measured: 0, scaled: 0.1, gauge: 0.2, hook: 0.25, weight: 0.35 } as const;

/** A measure is sure of its own stitch; others are scaled by it. */
function spreadOf(measured: ReadonlyMap<string, number>, { rows }: Grounds): number {
  return measured.has(rows.main.stitch) ? spreads.measured : spreads.scaled;
}

export interface Grounds {
  readonly front: FrontMatter;
  readonly context: PatternContext;
  readonly paths: StitchPaths;
  readonly list: YarnList;
  readonly rows: RowsTell;
}

export interface BasisRead {
  /** Null where the pattern gives nothing to go by. */
  readonly basis: Basis | null;
  /** What was left aside. */
  readonly problems: readonly GaugeProblem[];
}

/** The best basis for yarn per stitch. */
export function readBasis(grounds: Grounds): BasisRead {
  const { gauge, problems } = readGauge(grounds);
  const room = roomOf(grounds, gauge);
  return { basis: room && (measuredBasis(grounds, room) ?? swatchBasis(grounds, room) ?? room), problems };
}

function roomOf({ front, list }: Grounds, gauge: Gauge | null): Basis | null {
  const hookMm = front.hooks.map(hookMmOf).find((mm) => mm !== null) ?? null;
  const named = front.yarns.map((yarn) => yarnWeightNamed(yarn.weight ?? "")).find((one) => one) ?? null;
  const weight = named ?? (hookMm === null ? null : weightForHook(hookMm));
  const strands = Math.max(strandsOf(front), list.together.length);
  const label = list.yarns.find((yarn) => yarn.label !== null)?.label;
  const single =
    toldThickness(front) ??
    (named ? thicknessOf(named) : null) ??
    (label ? thicknessByLabel((label.metres * 100) / label.grams) : null) ??
    (weight ? thicknessOf(weight) : null);
  const thickness = single === null ? null : single * Math.sqrt(strands);
  const rest = { measured: new Map(), scale: 1, strands, gauge, hookMm, weight: named };
  if (gauge) {
    const size = sizeAtGauge(gauge, thickness ?? gauge.width / 3);
    return { sort: "gauge", says: say`the gauge, ${gauge.line.text}`, size, spread: spreads.gauge, ...rest };
  }
  if (hookMm !== null && thickness !== null)
    return {
      sort: "hook",
      says: say`the usual stitch of a ${hookMm} mm hook`,
      size: sizeWithHook(hookMm, thickness),
      spread: spreads.hook,
      ...rest,
    };
  if (weight && thickness !== null)
    return {
      sort: "weight",
      says: say`the usual stitch of ${weight.name} yarn`,
      size: sizeWithHook(usualHook(weight), thickness),
      spread: spreads.weight,
      ...rest,
    };
  return null;
}

/** `sc: 4.6 cm`: each stitch that is measured by itself; the others scaled with them. */
function measuredBasis(grounds: Grounds, room: Basis): Basis | null {
  const { front, paths } = grounds;
  const told = front.measuredYarn.filter(({ word, millimetres }) =>
    isBelievable(millimetres, paths.of(word), room),
  );
  const measured = new Map<string, number>();
  for (const { word, millimetres } of told) {
    const kind = paths.of(word);
    measured.set(kind.plain ?? word, millimetres / yarnIn(kind.path, room.size));
  }
  if (measured.size === 0) return null;
  const says = say`your own measure, ${told.map(({ text }) => text.trim()).join(", ")}`;
  return {
    ...room,
    sort: "measured",
    says,
    measured,
    scale: geometricMean([...measured.values()]),
    spread: spreadOf(measured, grounds),
  };
}

/** `Swatch: 20 sc x 20 rows, 9 g`; weighed, it needs a label to be told in metres. */
function swatchBasis(grounds: Grounds, room: Basis): Basis | null {
  const { front, paths, list, rows } = grounds;
  const label = list.yarns.find((yarn) => yarn.label !== null)?.label;
  for (const { word, stitches, metres, grams, text } of front.swatches) {
    const weighed = grams !== null && label ? (grams * label.metres) / label.grams / room.strands : null;
    const length = metres ?? weighed;
    if (length === null) continue;
    const kind = paths.of(word ?? rows.main.stitch);
    const scale = (length * 1000) / stitches / yarnIn(kind.path, room.size);
    const measured = new Map([[kind.plain ?? word ?? rows.main.stitch, scale]]);
    return {
      ...room,
      sort: "swatch",
      says: say`your swatch, ${text.replace(/^\W*swatch\W*/i, "")}`,
      measured,
      scale,
      spread: spreadOf(measured, grounds),
    };
  }
  return null;
}

/** Hands and yarns differ, but nobody's stitch takes three times as much yarn as another's, or a third. */
export function isBelievable(
  millimetres: number,
  { path }: KindOfStitch,
  { size }: Pick<Basis, "size">,
): boolean {
  return Math.abs(Math.log(millimetres / yarnIn(path, size))) < Math.log(3);
}

function geometricMean(numbers: readonly number[]): number {
  return Math.exp(numbers.reduce((sum, n) => sum + Math.log(n), 0) / numbers.length);
}

/** Yarn in one stitch of a kind, in millimetres of all strands together. */
export function yarnPerStitch(
  { path, plain }: KindOfStitch,
  { size, measured, scale, strands }: Basis,
): number {
  return yarnIn(path, size) * ((plain === null ? undefined : measured.get(plain)) ?? scale) * strands;
}

function hookMmOf({ mm, labels }: HookSize): number | null {
  if (mm !== null) return mm;
  const sizes = labels.flatMap(({ system, size }) =>
    system === "uk" ? hookSizesOfUk(size) : system === "steel" ? hookSizesOfSteel(size) : hookSizesOf(size),
  );
  return sizes[0] ?? null;
}

/** `cord, 4 mm thick`. */
function toldThickness({ lines }: FrontMatter): number | null {
  for (const { topic, line } of lines) {
    if (topic !== "materials" && topic !== "yarn") continue;
    const told = /(\d{1,2}(?:[.,]\d)?)\s?mm\s(?:thick|cord|rope)/i.exec(line.text)?.[1];
    if (told !== undefined) return Number(told.replace(",", "."));
  }
  return null;
}

/** `held double`, `with two strands held together`. */
function strandsOf({ lines }: FrontMatter): number {
  for (const { line } of lines) {
    // `for the brim only`: told again where it is worked.
    if (/\bonly\b/i.test(line.text)) continue;
    if (
      /\b(?:held|hold(?:ing)?)\s+(?:the\s+)?(?:yarn\s+)?(?:double|doubled)\b|\bdouble[sd]? strands?\b/i.test(
        line.text,
      )
    )
      return 2;
    const [, n] = /\b(two|three|2|3)\s+strands?\b[^.]*\b(?:together|held|at once)\b/i.exec(line.text) ?? [];
    if (n !== undefined) return /three|3/i.test(n) ? 3 : 2;
  }
  return 1;
}
