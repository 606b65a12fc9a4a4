import { Random } from "./random";

const properties: readonly [(n: number) => string, ...((n: number) => string)[]] = [
  (n) => `color: #${(n * 4099).toString(16).padStart(6, "0").slice(0, 6)}`,
  (n) => `margin: ${n % 40}px ${n % 7}em 0 auto`,
  (n) => `font: ${100 * ((n % 8) + 1)} ${10 + (n % 20)}px/1.5 "Source Sans", Arial, sans-serif`,
  (n) => `transition: opacity ${n % 900}ms ease-in-out, transform ${n % 500}ms cubic-bezier(0.4, 0, 0.2, 1)`,
  (n) =>
    `background: linear-gradient(${n % 360}deg, rgba(${n % 255}, 20, 60, 0.4) 0%, transparent ${n % 99}%)`,
  (n) => `width: calc(100% - ${n % 300}px + var(--gap-${n % 50}))`,
  (n) => `display: ${n % 2 === 0 ? "grid" : "flex"}`,
];

/** A style sheet of so many lines and about so many bytes; as good as no two rules are the same. */
export function styleSheet(lines: number, bytes: number, seed: number): string {
  const random = new Random(seed);
  const out: string[] = [];
  let written = 0;
  while (out.length < lines - 1) {
    const n = random.between(1, 1_000_000);
    out.push(`.part-${n} > .row:nth-child(${n % 30}), #stall-${n % 999} a[href^="#"]:hover {`);
    const longest = Math.min(random.between(3, 8), lines - out.length - 1);
    for (let i = 0; i < longest; i++)
      out.push(`  ${random.oneOf(properties)(random.between(1, 1_000_000))};`);
    out.push("}");
  }
  written = out.reduce((sum, line) => sum + line.length + 1, 0);
  return padded(out.slice(0, lines), bytes - written).join("\n");
}

/** Short declarations get a second one on their line until the bytes are reached. */
function padded(lines: string[], missing: number): string[] {
  let left = missing;
  return lines.map((line, i) => {
    const more = ` padding: ${i % 30}px ${i % 9}em; border: ${i % 5}px solid #${(i * 977).toString(16).padStart(6, "0").slice(0, 6)};`;
    if (left < more.length || !line.endsWith(";")) return line;
    left -= more.length;
    return line + more;
  });
}
