/** Which of several alike: `first leg`, `Leg 2`, `Panel B`. */
const places = ["first", "second", "third", "fourth"] as const;
const letters = "abcd";
const indexed = /^(.+?)\s+(?:no\.?\s*)?([1-4a-d])$/;
const ordered = /^(?:the\s+)?(first|1st|second|2nd|third|3rd|fourth|4th|other|left|right|one)\s+(.+)$/;

/** Words too common in rows to stand for a piece in the singular. */
const common = /^(?:side|edge|end|top|bottom|round|row|loop|corner|stitch|square|motif|note|size)$/;

/** `leg 1` for "First leg", "Leg 1", "LEG A"; `leg` for "Legs". */
export function pieceKey(name: string): string {
  const plain = name.toLowerCase().trim();
  const behind = indexed.exec(plain);
  if (behind) return `${singular(behind[1] as string)} ${numberOf(behind[2] as string)}`;
  const before = ordered.exec(plain);
  if (before) return `${singular(before[2] as string)} ${ordinalOf(before[1] as string)}`;
  return singular(plain);
}

/** The key without which one it is. */
export function baseOf(key: string): string {
  return key.replace(/ (?:\d|other|left|right)$/, "");
}

function numberOf(mark: string): number {
  return /\d/.test(mark) ? Number(mark) : letters.indexOf(mark) + 1;
}

function ordinalOf(word: string): string {
  const digit = /^\d/.exec(word)?.[0];
  if (digit) return digit;
  const at = places.indexOf(word as (typeof places)[number]);
  return at >= 0 ? String(at + 1) : word === "one" ? "1" : word;
}

function singular(name: string): string {
  return /[^s]s$/.test(name) ? name.slice(0, -1) : name;
}

/** How rows may call the piece under a heading: by its name, and where there are several by which one. */
export function mentionsOf(heading: string, several: boolean): readonly string[] {
  const plain = heading.toLowerCase().trim();
  const base = baseOf(pieceKey(plain));
  const isOneOf = several || base !== plain;
  if (!isOneOf || common.test(base)) return [plain];
  const before = ["first", "1st", "second", "2nd", "third", "fourth", "other", "left", "right", "one"];
  const behind = ["1", "2", "3", "4", "a", "b", "c", "d"];
  return [
    plain,
    base,
    `${base}s`,
    ...before.map((word) => `${word} ${base}`),
    ...behind.map((mark) => `${base} ${mark}`),
  ];
}
