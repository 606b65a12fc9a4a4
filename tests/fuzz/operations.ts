import fc from "fast-check";
import { heldOut, samples, specCases } from "../corpus";
import { generatedPattern } from "../property/generated-patterns";
import { type RequestName, requestNames } from "./requests";

/** One thing a client does. Places are fractions of the text there is then, so that any of them can be left out. */
export type Operation =
  | { readonly kind: "type"; readonly at: number; readonly put: string }
  | { readonly kind: "change"; readonly at: number; readonly cut: number; readonly put: string }
  | { readonly kind: "undo"; readonly steps: number }
  | { readonly kind: "save" }
  | {
      readonly kind: "ask";
      readonly what: RequestName;
      readonly at: number;
      readonly to: number;
      /** Which of the things offered is taken, as a fraction of all. */
      readonly pick: number;
      /** What the client does with the answer: looks at it, takes what is offered, or stops waiting. */
      readonly manner: "look" | "take" | "cancel";
    };

/** A text that is opened, and what is done with it. */
export interface Session {
  readonly start: string;
  readonly operations: readonly Operation[];
}

const patterns = [...samples(), ...heldOut()].map(({ text }) => text);
const cases = specCases().map(({ text }) => text);
const lines = [...patterns, ...cases].flatMap((text) => text.split("\n"));
const words = [...new Set(lines.flatMap((line) => line.split(/\s+/)))].filter((word) => word !== "");

const fraction = fc.double({ min: 0, max: 1, noNaN: true });

/** Things that no pattern has, and that end up in one. */
const oddity = fc.constantFrom("\r\n", "\r", "\t", "\u00a0", "\u200b", "\ud800", "\u0000", "🧶", "½", "−3");
const mark = fc.constantFrom(..."()[]{}*†;:,.-–x ", "\n", "\n\n");
const number = fc.constantFrom("0", "1", "6", "12", "999999999999", "6 (7, 8)");

const part = fc
  .tuple(fc.constantFrom(...patterns), fraction, fc.nat({ max: 12 }))
  .map(([text, from, count]) => {
    const all = text.split("\n");
    const first = Math.floor(from * all.length);
    return `${all.slice(first, first + count).join("\n")}\n`;
  });

const typed: fc.Arbitrary<string> = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...words) },
  { weight: 2, arbitrary: mark },
  { weight: 2, arbitrary: number },
  { weight: 1, arbitrary: fc.constantFrom(...lines.filter((line) => line.length < 60)) },
);
const pasted = fc.oneof(part, fc.constantFrom(...lines), typed, oddity);
/** Mostly a letter or none, at times a word, now and then half of the text. */
const cut = fraction.map((share) => share ** 12);

const edit: fc.Arbitrary<Operation> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant("type" as const), at: fraction, put: typed }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant("change" as const),
      at: fraction,
      cut: fc.constant(0),
      put: pasted,
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({ kind: fc.constant("change" as const), at: fraction, cut, put: fc.constant("") }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ kind: fc.constant("change" as const), at: fraction, cut, put: pasted }),
  },
  {
    weight: 2,
    arbitrary: fc.record({ kind: fc.constant("undo" as const), steps: fc.integer({ min: 1, max: 5 }) }),
  },
  { weight: 1, arbitrary: fc.constant({ kind: "save" as const }) },
);

const ask: fc.Arbitrary<Operation> = fc.record({
  kind: fc.constant("ask" as const),
  what: fc.constantFrom(...requestNames),
  at: fraction,
  to: fraction,
  pick: fraction,
  manner: fc.constantFrom("look" as const, "look" as const, "take" as const, "cancel" as const),
});

const start = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...cases) },
  { weight: 2, arbitrary: fc.constantFrom(...patterns) },
  { weight: 1, arbitrary: generatedPattern },
  { weight: 1, arbitrary: fc.constant("") },
);

/** Without the library's liking for the ends of a range: what is done is done all over the text. */
export const session: fc.Arbitrary<Session> = fc.noBias(
  fc.record({
    start,
    operations: fc.array(fc.oneof(edit, ask), { minLength: 20, maxLength: 60, size: "max" }),
  }),
);
