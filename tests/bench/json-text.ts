import { Random } from "./random";

/** A JSON document of so many lines and about so many bytes; as good as no two lines are the same. */
export function jsonText(lines: number, bytes: number, seed: number): string {
  const random = new Random(seed);
  const each = Math.max(8, Math.floor(bytes / lines) - 30);
  const rows = Array.from({ length: Math.max(1, lines - 2) }, (_, i) => {
    const n = random.between(1, 1_000_000);
    const words = `row ${n} of the stall, with rope and buoy number ${n % 977}. `.repeat(4).slice(0, each);
    return `  "part-${i}": { "n": ${n}, "text": ${JSON.stringify(words)} }`;
  });
  return `{\n${rows.join(",\n")}\n}`;
}
