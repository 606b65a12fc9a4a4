/*
 * What colours look like, as red, green and blue from 0 to 255. Source of those that CSS names: CSS
 * Color Module Level 4, "Named Colors" (www.w3.org/TR/css-color-4/#named-colors). Names of yarns that
 * CSS has not (cream, sage, mustard, denim …) are ours: a picture of the word, no promise of a shade.
 */
const css =
  "white:ffffff ivory:fffff0 black:000000 grey:808080 gray:808080 silver:c0c0c0 red:ff0000 maroon:800000 " +
  "crimson:dc143c orange:ffa500 coral:ff7f50 salmon:fa8072 pink:ffc0cb fuchsia:ff00ff magenta:ff00ff " +
  "purple:800080 lavender:e6e6fa violet:ee82ee plum:dda0dd blue:0000ff navy:000080 turquoise:40e0d0 " +
  "teal:008080 aqua:00ffff green:008000 olive:808000 khaki:f0e68c lime:00ff00 yellow:ffff00 gold:ffd700 " +
  "brown:a52a2a tan:d2b48c beige:f5f5dc chocolate:d2691e " +
  "lightblue:add8e6 lightgreen:90ee90 lightgrey:d3d3d3 lightgray:d3d3d3 lightpink:ffb6c1 lightyellow:ffffe0 " +
  "darkblue:00008b darkgreen:006400 darkgrey:a9a9a9 darkgray:a9a9a9 darkred:8b0000 darkorange:ff8c00 " +
  "skyblue:87ceeb royalblue:4169e1 seagreen:2e8b57 hotpink:ff69b4 deeppink:ff1493 palegreen:98fb98 " +
  "darkviolet:9400d3 mintcream:f5fffa";

const ours =
  "cream:fffdd0 ecru:e8dfc6 charcoal:36454f burgundy:800020 scarlet:ff2400 rust:b7410e apricot:fbceb1 " +
  "peach:ffcba4 rose:e77a97 lilac:c8a2c8 mauve:b784a7 denim:4f6d8f mint:aaf0d1 sage:9caf88 lemon:fff44f " +
  "mustard:d9a520 golden:d4a017 camel:c19a6b taupe:8b7d6b caramel:c68e4d bronze:a97142 copper:b87333 " +
  "sand:dcc9a0";

export type Rgb = readonly [red: number, green: number, blue: number];

const values: ReadonlyMap<string, Rgb> = new Map(
  `${css} ${ours}`.split(" ").map((entry) => {
    const [name = "", hex = ""] = entry.split(":");
    const at = (i: number) => Number.parseInt(hex.slice(i, i + 2), 16);
    return [name, [at(0), at(2), at(4)]] as const;
  }),
);

/** What a colour looks like, by its whole name or by its last word: `tide blue` is a blue; null where nobody can tell. */
export function colourValue(name: string): Rgb | null {
  const words = name.toLowerCase().match(/\p{L}+/gu) ?? [];
  const lastTwo = words.slice(-2).join("");
  return values.get(lastTwo) ?? values.get(words.at(-1) ?? "") ?? null;
}
