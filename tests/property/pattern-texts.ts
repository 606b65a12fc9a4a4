import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { readCases } from "../spec/case-file";

/** How often each property is tried; a longer run, as in `.ci/run`, sets PROPERTY_RUNS. */
export const runs = Number(process.env.PROPERTY_RUNS ?? 25);

const folder = new URL("../../samples/", import.meta.url);

/** The samples and the texts of all counting cases: real notation to start from. */
export const corpus: readonly string[] = [
  ...readdirSync(folder)
    .filter((file) => file.endsWith(".crochet"))
    .map((file) => readFileSync(new URL(file, folder), "utf8")),
  ...readCases().map(({ text }) => text),
];

const lines = corpus.flatMap((text) => text.split("\n"));
const words = [...new Set(lines.flatMap((line) => line.split(/\s+/)))].filter((word) => word !== "");

/** What hands put into a text by design or by accident. */
const snippet = fc.oneof(
  fc.constantFrom(...words),
  fc.constantFrom(...lines),
  fc.constantFrom(
    "\n",
    "\n\n",
    "\r\n",
    " ",
    "\t",
    "*",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "<",
    ">",
    "†",
    "-",
    "–",
  ),
  fc.constantFrom("0", "1", "7", "12", "999999999999", "x6", "6 (7, 8)", "½", "\u00a0", "\u200b", "\ufeff"),
  fc.string({ unit: "binary", maxLength: 4 }),
);

/** One change: `at` and `cut` as fractions of the text, so that it applies to any text. */
export interface Change {
  readonly at: number;
  readonly cut: number;
  readonly put: string;
}

const fraction = fc.double({ min: 0, max: 1, noNaN: true });

export const change: fc.Arbitrary<Change> = fc.record({
  at: fraction,
  cut: fc.oneof(
    { weight: 3, arbitrary: fc.constant(0) },
    { weight: 1, arbitrary: fraction.map((x) => x ** 6) },
  ),
  put: fc.oneof(fc.constant(""), snippet),
});

/** The text after a change; a change that would do nothing takes one character away instead. */
export function changed(text: string, { at, cut, put }: Change): string {
  const start = Math.floor(at * text.length);
  const length = Math.floor(cut * (text.length - start)) || (put === "" ? 1 : 0);
  return text.slice(0, start) + put + text.slice(start + length);
}

export const goodText = fc.constantFrom(...corpus);

/** A real pattern with a few slips of the hand. */
export const slippedText = fc
  .tuple(goodText, fc.array(change, { minLength: 1, maxLength: 6 }))
  .map(([text, changes]) => changes.reduce(changed, text));

/** The lines of a real pattern in another order. */
export const shuffledText = goodText
  .chain((text) => {
    const parts = text.split("\n");
    return fc.shuffledSubarray(parts, { minLength: parts.length });
  })
  .map((parts) => parts.join("\n"));

/** Lines of many patterns thrown together. */
export const patchedText = fc
  .array(fc.constantFrom(...lines), { maxLength: 30 })
  .map((parts) => parts.join("\n"));

/** Anything at all: control characters, half surrogates, words of the trade in a heap. */
export const wildText = fc.oneof(
  fc.string({ unit: "binary", maxLength: 200 }),
  fc.string({ unit: "grapheme", maxLength: 200 }),
  fc.array(snippet, { maxLength: 40 }).map((parts) => parts.join("")),
  fc.array(snippet, { maxLength: 40 }).map((parts) => `Row 1: ${parts.join(" ")}`),
);

export const anyText = fc.oneof(goodText, slippedText, shuffledText, patchedText, wildText);
