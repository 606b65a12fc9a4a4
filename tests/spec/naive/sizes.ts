/** The sizes a pattern is written for; one nameless size where it says nothing. */
export interface Sizes {
  readonly names: readonly string[];
}

const cell = "(?:\\d+|-)";
const list = new RegExp(`${cell} ?[([]${cell}(?:[,:] ?${cell})+[)\\]]`, "g");

export function sizesOf(text: string): Sizes {
  const named =
    /^sizes?:? (?:women's )?([^.\n]+)/im.exec(text)?.[1] ?? /^to fit (\d+\[[\d:]+\])/im.exec(text)?.[1];
  if (named)
    return {
      names: named.split(/[\s,:()[\]]+/).filter((name) => name !== "" && name !== "only" && name !== "and"),
    };
  if (/first \(second\) size/i.test(text)) return { names: ["first", "second"] };
  const lengths = [...text.matchAll(list)].map(([found]) => found.split(/[,:([]/).length);
  const longest = Math.max(1, ...lengths.filter((length) => length > 2));
  return { names: Array.from({ length: longest }, (_, index) => String(index + 1)) };
}

/** The line as one size reads it: each list gives way to the number for that size, `-` where there is none. */
export function forSize(line: string, size: number, sizes: number): string {
  if (sizes === 1) return line;
  const pick = (numbers: string): string => {
    const all = numbers.split(/[^\d-]+/).filter((number) => number !== "");
    return all[size] ?? "-";
  };
  const rest = sizes === 2 ? "" : `(?:[,:-] ?${cell})+`;
  const outside = new RegExp(`(?<![\\w.]|(?<!\\d)-)${cell} ?[([]${cell}${rest}[)\\]]`, "g");
  const inside = new RegExp(`(\\w )?[([](${cell}(?:, ?${cell}){${sizes - 1}})( \\w+)?[)\\]]`, "g");
  return line
    .replace(outside, pick)
    .replace(inside, (_, before: string | undefined, numbers: string, noun: string | undefined) =>
      before && !noun ? before + pick(numbers) : `${before ?? ""}(${pick(numbers)}${noun ?? ""})`,
    );
}
