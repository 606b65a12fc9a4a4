/** Texts no one would write on purpose; whatever holds them, the program must live on. */
export const HOSTILE_TEXTS: readonly (readonly [name: string, text: string])[] = [
  ["an empty text", ""],
  ["only line ends", "\r\n\n\r"],
  ["NUL bytes", "Rnd 1: 6 sc\u0000 in mr (6)\u0000"],
  ["every control character", String.fromCharCode(...Array(32).keys(), 127, 0x85, 0x2028, 0x2029, 0xfeff)],
  ["halves of characters", "Rnd 1: \ud800 6 sc \udc00 in mr (6)\udbff"],
  ["writing from right to left", "Rnd 1: \u202e6 sc in mr\u202c (6) שורה سطر\u2067"],
  ["characters outside the first plane", "Rnd 1: 🧶🧶 6 sc in mr (6) 👩‍👩‍👧‍👦 \u{10ffff}"],
  ["combining marks", `Rnd 1: s${"\u0301".repeat(1000)}c (6)`],
  ["a line of 10 MB", `Rnd 1: ${"sc, ".repeat(2_600_000)}`],
  ["a word of 10 MB", "x".repeat(10_000_000)],
  ["10,000 brackets", `Rnd 1: ${"[".repeat(10_000)}sc${"]".repeat(10_000)} (1)`],
  ["10,000 brackets that stay open", `Rnd 1: ${"([{*".repeat(2_500)}`],
  ["numbers beyond all counting", "Rnd 1: 99999999999999999999 sc in mr\nRnd 2: [inc] x 1000000000000 (-0)"],
  ["20,000 rows", Array.from({ length: 20_000 }, (_, row) => `Rnd ${row}: sc around (6)`).join("\n")],
  [
    "200,000 rows",
    Array.from({ length: 200_000 }, (_, row) => `Rnd ${row + 1}: 6 sc around the post (6)`).join("\n"),
  ],
  ["letters of another alphabet that look alike", "Rnd 1: 6 \u0455\u0441 in mr (6)\nRnd 2: \u0456nc x6 (12)"],
  ["names a program may trip over", "__proto__: constructor\nRnd 1: toString, hasOwnProperty (__proto__)"],
  ["markup", "Rnd 1: <img src=x onerror=alert(1)> $\u007b6} %s %n `x` (6)"],
];
