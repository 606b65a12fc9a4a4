import { type Figure, figuresTable, thisRun } from "./figure";
import { ofFirstChecks, ofGrowth } from "./gathered";
import { type Growth, growths } from "./growth";
import { longPattern, mixOf } from "./long-pattern";
import { median } from "./measure";
import { type SubjectName, subjects } from "./subjects";

/**
 * Ratios that hold on any machine, whatever else it does: what is divided was measured in turn with what it is
 * divided by. A bound is what a change of design would break, not what a good day gives.
 */
const bounds = { ofCss: 8, tenfold: 1.2, editOfFirst: 0.15, doubled: 2.6 } as const;
const seed = 31_415;
const [rows, runs] = [1_000, 7];

/** Measures the ratios and tells them; 1 where one of them is out of bounds, as the status of a process. */
export async function ratiosWithinBounds(): Promise<0 | 1> {
  const figures = [...ofFirst(), ...tenfold(), ...doubled()];
  console.log(figuresTable(thisRun(figures), null));
  const broken = figures.filter(({ value, goal = Number.POSITIVE_INFINITY }) => !(value <= goal));
  for (const { what, value, goal } of broken)
    console.error(`OUT OF BOUNDS: ${what}: ${value.toFixed(2)}, at most ${goal}`);
  return broken.length > 0 ? 1 : 0;
}

/** The first check by that of the style sheet service, and a keystroke by the first check. */
function ofFirst(): Figure[] {
  const [own, css, keystrokes] = [[], [], []] as [number[], number[], number[]];
  for (let run = 0; run < runs; run++) {
    own.push(firstCheck("loopledger", rows, seed + run));
    css.push(firstCheck("css", rows, seed + run));
    keystrokes.push(...keystrokesIn(rows, seed + run, 5));
  }
  return [
    {
      what: "first check, of the CSS service",
      value: least(own) / least(css),
      unit: "×",
      goal: bounds.ofCss,
    },
    {
      what: "a keystroke, of the first check",
      value: median(keystrokes) / median(own),
      unit: "×",
      goal: bounds.editOfFirst,
    },
  ];
}

/** Sizes in turn, the least of each: what else the machine does only ever adds to it. */
function tenfold(): Figure[] {
  const checks = new Map([200, 2_000].map((size) => [size, { rows: 0, times: [] as number[] }]));
  for (let run = 0; run < runs; run++)
    for (const [size, { times }] of checks) times.push(firstCheck("loopledger", size, seed * 2 + run));
  const leasts = new Map<number, { rows: number; times: number[] }>();
  for (const [size, { times }] of checks)
    leasts.set(size, { rows: mixOf(longPattern(size, seed * 2)).rows, times: [least(times)] });
  return ofFirstChecks(leasts)
    .filter(({ unit }) => unit === "×")
    .map((figure) => ({ ...figure, goal: bounds.tenfold }));
}

function firstCheck(name: SubjectName, size: number, at: number): number {
  const text = subjects[name].text(size, at);
  const check = subjects[name].fresh();
  return processorTime(() => check(text));
}

/** One digit changed in one row, again and again. */
function keystrokesIn(size: number, at: number, many: number): number[] {
  const text = subjects.loopledger.text(size, at);
  const check = subjects.loopledger.fresh();
  check(text);
  return Array.from({ length: many }, (_, i) => {
    const half = text.indexOf(")", Math.floor((text.length * (i + 1)) / (many + 1)));
    return processorTime(() => check(`${text.slice(0, half)}1${text.slice(half)}`));
  });
}

/** Milliseconds of the processor: what other programs take is not in them. */
function processorTime(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** Of each shape over all its doublings together: of a single one a hiccup of the machine decides. */
function doubled(): Figure[] {
  const all = growths();
  const together = all.map((growth): Growth => {
    const steps = all.filter(({ shape }) => shape === growth.shape).map(({ ratio }) => ratio);
    return { ...growth, ratio: steps.reduce((product, ratio) => product * ratio, 1) ** (1 / steps.length) };
  });
  return ofGrowth(together).map((figure) => ({ ...figure, goal: bounds.doubled }));
}

function least(times: readonly number[]): number {
  return Math.min(...times);
}
