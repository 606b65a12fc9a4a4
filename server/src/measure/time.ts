import type { WorkedRow } from "../fabric/worked";
import { say } from "../text/say";
import { stitchesOf } from "./stitch-counts";

/** Minutes; a shorter time is nothing to plan with. */
export const shortestTime = 5;

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
  if (minutes < 1) return say`less than a minute`;
  const { n, unit } = steady(minutes);
  if (unit === "hour") return n === 1 ? say`about 1 hour` : say`about ${withHalves(n)} hours`;
  return n === 1 ? say`about 1 minute` : say`about ${withHalves(n)} minutes`;
}

/** The same where room is scarce: `1½ min`, `2 h`. */
export function shortDuration(minutes: number): string {
  if (minutes < 1) return "< 1 min";
  const { n, unit } = steady(minutes);
  return `${withHalves(n)} ${unit === "minute" ? "min" : "h"}`;
}

function steady(minutes: number): { readonly n: number; readonly unit: "minute" | "hour" } {
  if (minutes < 10) return { n: Math.round(minutes * 2) / 2, unit: "minute" };
  if (minutes < 55) return { n: Math.round(minutes / 5) * 5, unit: "minute" };
  const hours = minutes / 60;
  return { n: hours < 10 ? Math.round(hours * 2) / 2 || 1 : Math.round(hours), unit: "hour" };
}

function withHalves(n: number): string {
  const whole = Math.floor(n);
  return n === whole ? String(n) : `${whole || ""}½`;
}
