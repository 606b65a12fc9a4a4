import { type LineContent, readHeading } from "../notation/document";
import type { PatternLine } from "../notation/lines";
import { keptBy } from "../text/kept-by";
import type { Block } from "./pattern";

/** What of a pattern the reading of parts needs: rows may be worked or not. */
interface Blocks<P> {
  readonly lines: readonly PatternLine[];
  readonly blocks: readonly Block[];
  /** One for each block that has a piece. */
  readonly pieces: readonly P[];
}

/** A heading with all that stands below it, up to the next one. */
export class Part<P> {
  private ownLines: readonly PatternLine[] | undefined;

  constructor(
    private readonly all: readonly PatternLine[],
    private readonly block: Block,
    /** Its rows, where it has any. */
    readonly piece: P | null,
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
export function partsOf<P>({ lines, blocks, pieces }: Blocks<P>): Part<P>[] {
  let next = 0;
  return blocks.map((block) => new Part(lines, block, block.piece ? (pieces[next++] ?? null) : null));
}

const assembling =
  /^(?:final\s+)?(?:assembl|finish|(?:to\s+)?mak(?:e|ing)\s+up|put(?:ting)?\s+(?:it\s+|\w+\s+)?together|sewing|joining|construction|to\s+finish|completing)/i;

const assembles = keptBy((heading: LineContent): boolean => assembling.test(nameOf(heading)));

const nameOf = keptBy((heading: LineContent): string => readHeading(heading.text.trim()).name);
