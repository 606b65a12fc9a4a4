import { type LineContent, readHeading } from "../notation/document";
import type { PatternLine } from "../notation/lines";
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
    return this.piece === null && this.heading !== null && assembles(this.heading.content);
  }

  /** Without the heading. */
  get lines(): readonly PatternLine[] {
    const { from, to } = this.block;
    this.ownLines ??= this.all.slice(this.heading ? from + 1 : from, to);
    return this.ownLines;
  }
}

/** The parts of a pattern, in order. */
export const partsOf = keptBy(({ lines, blocks, pieces }: WorkedPattern): readonly WorkedPart[] => {
  let next = 0;
  return blocks.map((block) => new WorkedPart(lines, block, block.piece ? (pieces[next++] ?? null) : null));
});

/** Something found in a part once, whatever is edited elsewhere; what it gives must not hold places in the text. */
export function perPart<T>(read: (part: WorkedPart) => T): (part: WorkedPart) => T {
  const kept = new WeakMap<object, { readonly body: object; readonly value: T }>();
  return (part) => {
    const key = part.piece?.work ?? part.body;
    let known = kept.get(key);
    if (known?.body !== part.body) {
      known = { body: part.body, value: read(part) };
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

const assembling =
  /^(?:final\s+)?(?:assembl|finish|(?:to\s+)?mak(?:e|ing)\s+up|put(?:ting)?\s+(?:it\s+|\w+\s+)?together|sewing|joining|construction|to\s+finish|completing)/i;

const assembles = keptBy((heading: LineContent): boolean => assembling.test(nameOf(heading)));

const nameOf = keptBy((heading: LineContent): string => readHeading(heading.text.trim()).name);
