import type { LineContent } from "../notation/document";
import { readHeading } from "../notation/headings";
import type { PatternLine } from "../notation/lines";
import { Chunks, type PlacedChunk } from "../text/chunks";
import { keptBy } from "../text/kept-by";
import type { Block } from "./pattern";
import type { WorkedPattern, WorkedPiece } from "./worked";

/** A heading with all that stands below it, up to the next one. */
export class WorkedPart {
  private ownLines: readonly PatternLine[] | undefined;

  constructor(
    private readonly all: readonly PatternLine[],
    private readonly block: Block,
    /** Its rows, where it has any. */
    readonly piece: WorkedPiece | null,
    readonly stands: "before rows" | "behind rows",
  ) {}

  /** The same object wherever the part stands, as long as nothing else of it changes. */
  get body(): object {
    return this.block.body;
  }

  /** Null for what stands before the first heading. */
  get heading(): PatternLine | null {
    const first = this.all[this.block.from];
    return first?.kind === "heading" ? first : null;
  }

  get name(): string {
    return this.heading ? nameOf(this.heading.content) : "";
  }

  /** Whether it tells how the pieces are put together. */
  get assembles(): boolean {
    const { piece, heading } = this;
    if (piece !== null || heading === null) return false;
    return assembles(heading.content) || (this.stands === "behind rows" && !talks(heading.content));
  }

  /** Without the heading. */
  get lines(): readonly PatternLine[] {
    this.ownLines ??= this.all.slice(this.firstLine, this.block.to);
    return this.ownLines;
  }

  /** One of these lines. */
  lineAt(index: number): PatternLine | undefined {
    const at = this.firstLine + index;
    return at < this.block.to ? this.all[at] : undefined;
  }

  private get firstLine(): number {
    return this.heading ? this.block.from + 1 : this.block.from;
  }
}

/** The parts of a pattern, in order. */
export const partsOf = keptBy(({ lines, blocks, pieces }: WorkedPattern): readonly WorkedPart[] => {
  let next = 0;
  return blocks.map((block) => {
    const stands = next > 0 ? "behind rows" : "before rows";
    return new WorkedPart(lines, block, block.piece ? (pieces[next++] ?? null) : null, stands);
  });
});

/** Something found in a part once, whatever is edited elsewhere; what it gives must not hold places in the text. */
export function perPart<T>(read: (part: WorkedPart) => T): (part: WorkedPart) => T {
  const kept = new WeakMap<object, Pick<WorkedPart, "body" | "stands"> & { readonly value: T }>();
  return (part) => {
    const key = part.piece?.work ?? part.body;
    const { body, stands } = part;
    let known = kept.get(key);
    if (known?.body !== body || known.stands !== stands) {
      known = { body, stands, value: read(part) };
      kept.set(key, known);
    }
    return known.value;
  };
}

/** Something read from the rows of a piece once; what it gives must not hold places in the text. */
export function perPiece<T>(read: (piece: WorkedPiece) => T): (piece: WorkedPiece) => T {
  const kept = new WeakMap<object, { readonly value: T }>();
  return (piece) => {
    let known = kept.get(piece.work);
    if (!known) {
      known = { value: read(piece) };
      kept.set(piece.work, known);
    }
    return known.value;
  };
}

/** Something found in a part. */
export interface InPart<T> {
  readonly found: T;
  readonly part: WorkedPart;
}

/**
 * All that is found in the parts of a pattern, in order. Those that an edit left alone are not gone through
 * again; what is found must not hold places in the text.
 */
export function inParts<T>(
  read: (part: WorkedPart) => readonly T[],
): (pattern: WorkedPattern) => readonly InPart<T>[] {
  const readOnce = perPart(read);
  const readChunk = perChunk((parts) =>
    parts.flatMap((part, at) => readOnce(part).map((found) => ({ at, found }))),
  );
  return (pattern) => {
    const parts = partsOf(pattern);
    return readChunk(pattern).flatMap(({ value, from }) =>
      value.map(({ at, found }) => ({ found, part: parts[from + at] as WorkedPart })),
    );
  };
}

/** What some neighbouring parts come to, the first of which has this index. */
export interface OfChunk<T> {
  readonly value: T;
  readonly from: number;
}

/** A value for each chunk of parts, in order; those that an edit left alone are not gone through again. */
export function perChunk<T>(
  read: (parts: readonly WorkedPart[]) => T,
): (pattern: WorkedPattern) => readonly OfChunk<T>[] {
  const kept = new WeakMap<object, { readonly value: T }>();
  return (pattern) =>
    chunksOf(pattern).map(({ chunk, from }) => {
      let known = kept.get(chunk);
      if (!known) {
        known = { value: read(partsOf(pattern).slice(from, from + chunk.items.length)) };
        kept.set(chunk, known);
      }
      return { value: known.value, from };
    });
}

/** The same for the parts that have rows. */
export function inPieces<T>(
  read: (piece: WorkedPiece) => readonly T[],
): (pattern: WorkedPattern) => readonly (InPart<T> & { readonly piece: WorkedPiece })[] {
  const all = inParts(({ piece }) => (piece ? read(piece) : []));
  return (pattern) => all(pattern).map((one) => ({ ...one, piece: one.part.piece as WorkedPiece }));
}

const chunks = new Chunks<object>();
const identityOf = perPart(() => ({}));
const chunksOf = keptBy((pattern: WorkedPattern): readonly PlacedChunk<object>[] =>
  chunks.of(partsOf(pattern).map(identityOf)),
);

const assembling =
  /^(?:final\s+)?(?:assembl|finish|(?:to\s+)?mak(?:e|ing)\s+up|put(?:ting)?\s+(?:it\s+|\w+\s+)?together|sewing|joining|construction|to\s+finish|completing)/i;

const assembles = keptBy((heading: LineContent): boolean => assembling.test(nameOf(heading)));

/** What stands behind the rows and is no such talk is about what was made: `Layout`, `Face`, `Placing the motifs`. */
const talking =
  /\b(?:notes?|tips?|hints?|variations?|options?|optional|other|another|alternative\w*|colou?rways?|adapt\w*|larger|bigger|smaller|chart|key|care|washing|safety|copyright|about|thanks?|version|errata|abbreviations?|glossary|stitch(?:es)?|special|sizes?|sizing|gauge|tension|materials?|yarns?|contact|help|support)\b/i;

const talks = keptBy((heading: LineContent): boolean => talking.test(nameOf(heading)));

const nameOf = keptBy((heading: LineContent): string => readHeading(heading.text.trim()).name);
