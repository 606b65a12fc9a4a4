import type { WorkedRow } from "../fabric/worked";
import { stitchesOf } from "./stitch-counts";

/** Stitches a minute. Common practice: ordinary hands work 18 to 22 a minute, beginners half as many. */
export const pace = { usual: 20, beginner: 10 } as const;

/** A chain takes a third of the time of a stitch. Common practice, no source. */
const chainTime = 1 / 3;

/** Minutes to work a row, so many times, one number a size; null where its stitches or its times are not known. */
export function minutesOf(
  row: WorkedRow,
  stitchesPerMinute: number,
  times: readonly (number | null)[] = [],
): readonly (number | null)[] {
  return stitchesOf(row).map((turns, size) => {
    const many = times.length === 0 ? 1 : (times[size] ?? null);
    if (turns === null || many === null) return null;
    let stitches = 0;
    for (const turn of turns)
      for (const counts of turn.values())
        for (const [key, n] of counts) stitches += n * (key === "ch" ? chainTime : 1);
    return (stitches * many) / stitchesPerMinute;
  });
}

/** `about 1½ minutes`, `about 2 hours`: no finer than hands are steady. */
export function durationInWords(minutes: number): string {
  if (minutes < 1) return "less than a minute";
  if (minutes < 10) return plural(Math.round(minutes * 2) / 2, "minute");
  if (minutes < 55) return plural(Math.round(minutes / 5) * 5, "minute");
  const hours = minutes / 60;
  return plural(hours < 10 ? Math.round(hours * 2) / 2 || 1 : Math.round(hours), "hour");
}

function plural(n: number, unit: string): string {
  const whole = Math.floor(n);
  const printed = n === whole ? String(n) : `${whole || ""}½`;
  return `about ${printed} ${unit}${n === 1 ? "" : "s"}`;
}
