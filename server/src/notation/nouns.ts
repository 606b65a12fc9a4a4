const irregular: ReadonlyMap<string, string> = new Map([
  ["feet", "foot"],
  ["teeth", "tooth"],
  ["leaves", "leaf"],
  ["halves", "half"],
  ["hooves", "hoof"],
  ["scarves", "scarf"],
  ["loaves", "loaf"],
  ["calves", "calf"],
  ["wolves", "wolf"],
  ["elves", "elf"],
  ["eyes", "eye"],
  ["shoes", "shoe"],
  ["toes", "toe"],
]);

/** `floats` → `float`, `branches` → `branch`, `feet` → `foot`; a word in lower case. */
export function singular(word: string): string {
  const known = irregular.get(word);
  if (known !== undefined) return known;
  if (/[^aeiou]ies$/.test(word) && word.length > 4) return `${word.slice(0, -3)}y`;
  // `roses` are not `ros`.
  if (/(?:ss|x|zz|ch|sh)es$/.test(word)) return word.slice(0, -2);
  return /[^su]s$/.test(word) && word.length > 3 ? word.slice(0, -1) : word;
}

const plurals: ReadonlyMap<string, string> = new Map([...irregular].map(([many, one]) => [one, many]));

/** `float` → `floats`, `branch` → `branches`, `foot` → `feet`; the last word of a name, in lower case. */
export function plural(name: string): string {
  const last = /\p{L}+$/u.exec(name)?.[0] ?? "";
  const known = plurals.get(last);
  if (known !== undefined) return name.slice(0, name.length - last.length) + known;
  if (/s$/.test(name)) return name;
  if (/(?:x|ch|sh)$/.test(name)) return `${name}es`;
  return /[^aeiou]y$/.test(name) ? `${name.slice(0, -1)}ies` : `${name}s`;
}
