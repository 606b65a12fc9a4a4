import type { WorkedPiece, WorkedRow } from "../../fabric/worked";
import { say } from "../../text/say";
import { type TextEdit, withEdits } from "../../text/span";
import { followInPiece, type WorkedText } from "../follow";
import type { Refusal } from "../row-trial";
import { type DraftRow, editsOf } from "./draft";
import { type Increases, inLine } from "./in-line";
import { numberMapOf, withReferences } from "./row-map";

/** A draft whose rows were all brought into line and worked. */
export interface FollowedDraft {
  readonly draft: readonly DraftRow[];
  readonly piece: WorkedPiece;
}

/** Works drafts of one piece, each as a text of its own. */
export class Workbench {
  private readonly at: number;

  constructor(
    readonly pattern: WorkedText,
    readonly piece: WorkedPiece,
    /** The new width by the old one. */
    readonly by: number,
    private readonly increases: Increases,
  ) {
    this.at = pattern.pieces.indexOf(piece);
  }

  /** The rows of a draft as they stand; those of the piece that are not in it are left out. */
  worked(draft: readonly DraftRow[]): WorkedPiece | null {
    return this.work(this.textOf(this.completed(draft)));
  }

  /** The draft with its numbers, its references and its counts in line; or the row that cannot follow. */
  followed(draft: readonly DraftRow[]): FollowedDraft | Refusal {
    const map = numberMapOf(draft);
    const lined = inLine(draft, this.piece, this.by, this.increases);
    const renumbered = this.completed(lined.map((one) => ({ ...one, body: withReferences(one.body, map) })));
    const text = this.textOf(renumbered);
    const { pieces } = this.pattern.copies().work(text);
    const piece = pieces[this.at];
    // Mostly all rows are in line by now, and none has to follow.
    return piece?.rows.every(({ result }) => result === "ok")
      ? { draft: renumbered, piece }
      : this.broughtRight(renumbered, { text, pieces, copies: this.pattern.copies });
  }

  private broughtRight(draft: readonly DraftRow[], drafted: WorkedText): FollowedDraft | Refusal {
    const begin = this.piece.rows.findIndex(({ line }) => line.kind !== "foundation");
    const { changed, stopped } = followInPiece(drafted, { piece: this.at, row: begin + 1 });
    const there = draft.filter(({ state }) => state !== "gone");
    const before = drafted.pieces[this.at]?.rows ?? [];
    const lineOf = (row: WorkedRow): DraftRow | undefined =>
      there[before.findIndex(({ line }) => line.start === row.line.start)];
    if (stopped) {
      const name = (lineOf(stopped.row)?.row ?? stopped.row).line.headText;
      return { why: say`${name} cannot follow: ${stopped.why}` };
    }
    const bodies = new Map(
      changed.map(({ row, edits }) => {
        const one = lineOf(row);
        return [one, withEdits(one?.body ?? "", moved(edits, -row.line.start))] as const;
      }),
    );
    const done = draft.map((one) => ({ ...one, body: bodies.get(one) ?? one.body }));
    const piece = this.work(this.textOf(done));
    const wrong = piece?.rows.find(({ result }) => result !== "ok");
    if (!piece || wrong) return { why: say`${wrong?.line.headText ?? say`a row`} would not come out right` };
    return { draft: done, piece };
  }

  /** All lines of the piece; those that a draft does not have are gone. */
  private completed(draft: readonly DraftRow[]): DraftRow[] {
    const there = new Set(draft.map(({ row }) => row));
    const gone = this.piece.rows
      .filter((row) => !there.has(row))
      .map((row) => ({ row, state: "gone", body: "", rows: 0 }) as const);
    return [...draft, ...gone];
  }

  private textOf(draft: readonly DraftRow[]): string {
    const edits = editsOf(this.pattern.text, draft).flatMap((one) => one.edits);
    return withEdits(this.pattern.text, edits);
  }

  private work(text: string): WorkedPiece | null {
    return this.pattern.copies().work(text).pieces[this.at] ?? null;
  }
}

function moved(edits: readonly TextEdit[], by: number): TextEdit[] {
  return edits.map(({ span, newText }) => ({
    span: { start: span.start + by, end: span.end + by },
    newText,
  }));
}
