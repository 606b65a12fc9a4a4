import type { Figure } from "./figure";
import { type Growth, growthGoal } from "./growth";
import { hostileGoals, type Suffered } from "./hostile";
import { median, quantile, type Times } from "./measure";
import type { OverStdio } from "./over-stdio";

/** What is aimed at over stdio, by the rows of the text: a keystroke to its findings, median and 95th percentile. */
const keystrokeGoals: Readonly<Record<number, readonly [number, number]>> = { 300: [3, 10], 5000: [8, 20] };
const askedGoals = { hovers: 5, completions: 10, actions: 15 } as const;
const askedNames = { hovers: "hover", completions: "completion", actions: "list of actions" } as const;
const largest = 5_000;

/** The figures of sessions over stdio that are aimed at. */
export function ofSessions(sessions: readonly OverStdio[], pushed: readonly OverStdio[]): Figure[] {
  const own = sessions.filter(({ server }) => server === "loopledger");
  const empty = sessions.filter(({ server }) => server === "empty").map(({ start }) => start);
  return [
    ...own.flatMap((one) => keystroke(one, "asked for")),
    ...pushed.flatMap((one) => keystroke(one, "sent")),
    ...own.filter(({ rows }) => rows === largest).flatMap(asked),
    {
      what: "start to initialize, of an empty server's",
      value: median(own.map(({ start }) => start)) / median(empty),
      unit: "×",
      goal: 1.5,
    },
    ...own.flatMap(({ rows, atRest }) => memory(`memory, ${rows} rows, checked once`, atRest, rows)),
  ];
}

function keystroke({ rows, keystrokes }: OverStdio, way: string): Figure[] {
  const [middle, most] = keystrokeGoals[rows] ?? [];
  const what = `keystroke to findings, ${rows} rows, ${way}`;
  return [
    { what: `${what}, median`, value: median(keystrokes), unit: "ms", ...goal(middle) },
    { what: `${what}, p95`, value: quantile(keystrokes, 0.95), unit: "ms", ...goal(most) },
  ];
}

function asked(session: OverStdio): Figure[] {
  return (Object.keys(askedGoals) as (keyof typeof askedGoals)[]).map((what) => ({
    what: `${askedNames[what]}, ${session.rows} rows, p95`,
    value: quantile(session[what], 0.95),
    unit: "ms",
    goal: askedGoals[what],
  }));
}

function memory(what: string, megabytes: number | null, rows: number): Figure[] {
  return megabytes === null
    ? []
    : [{ what, value: megabytes, unit: "MB", ...goal(rows === largest ? 90 : undefined) }];
}

/** How much memory grows between a tenth of the keystrokes of a long session and all of them. */
export function ofLongSession(
  keystrokes: number,
  { atEnd: early }: OverStdio,
  { atEnd: late }: OverStdio,
): Figure[] {
  if (early === null || late === null) return [];
  const grown = 100 * (late / early - 1);
  return [
    {
      what: `memory after ${keystrokes} edits, more than after a tenth of them`,
      value: Math.max(0, grown),
      unit: "%",
      goal: 5,
    },
  ];
}

/** Times by the size that was asked for, with the rows that such a pattern has. */
type BySize = ReadonlyMap<number, { readonly rows: number; readonly times: Times }>;

/** First checks in a process that has checked nothing before. */
export function ofColdChecks(checks: BySize): Figure[] {
  return [...checks].map(([size, { times }]) => ({
    what: `first check in a new process, ${size} rows`,
    value: median(times),
    unit: "ms",
  }));
}

/** Edits of a text that is kept checked. */
export function ofKeystrokes(checks: BySize): Figure[] {
  return [...checks].flatMap(([size, { times }]): Figure[] => [
    { what: `keystroke in process, ${size} rows, median`, value: median(times), unit: "ms" },
    { what: `keystroke in process, ${size} rows, p95`, value: quantile(times, 0.95), unit: "ms" },
  ]);
}

/** First checks: of each size the microseconds a row, and what a row costs of ten times as many. */
export function ofFirstChecks(checks: BySize): Figure[] {
  const perRow = new Map([...checks].map(([size, { rows, times }]) => [size, (1000 * median(times)) / rows]));
  const each = [...perRow].map(
    ([size, value]): Figure => ({ what: `first check, a row of ${size}`, value, unit: "µs", goal: 30 }),
  );
  const tenfold = [...perRow].flatMap(([size, value]): Figure[] => {
    const tenth = perRow.get(size / 10);
    return tenth === undefined
      ? []
      : [{ what: `a row of ${size}, of a row of ${size / 10}`, value: value / tenth, unit: "×", goal: 1.2 }];
  });
  return [...each, ...tenfold];
}

export function ofHostile(all: readonly Suffered[]): Figure[] {
  const most = (of: (one: Suffered) => number) => Math.max(...all.map(of));
  return [
    {
      what: "hostile text, slowest to findings",
      value: most(({ took }) => took),
      unit: "ms",
      goal: hostileGoals.milliseconds,
    },
    {
      what: "hostile text, most memory",
      value: most(({ memory: megabytes }) => megabytes ?? 0),
      unit: "MB",
      goal: hostileGoals.megabytes,
    },
  ];
}

export function ofGrowth(all: readonly Growth[]): Figure[] {
  const value = Math.max(...all.map(({ ratio }) => ratio));
  return [{ what: "twice the text, of the time of half", value, unit: "×", goal: growthGoal }];
}

function goal(value: number | undefined): { readonly goal: number } | object {
  return value === undefined ? {} : { goal: value };
}
