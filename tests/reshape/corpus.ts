import type { WorkedPiece, WorkedRow } from "../../server/src/fabric/worked";
import type { Scene } from "../../server/src/features/actions/all-actions";
import { type CorpusText, samples, specCases } from "../corpus";
import { sceneOf } from "../mutants/promises";

/** A row of a real pattern that is understood, where it stands. */
export interface RealRow {
  readonly name: string;
  readonly scene: Scene;
  readonly piece: WorkedPiece;
  readonly row: WorkedRow;
}

/** Samples and cases: row shapes as designers write them. */
export function realTexts(): readonly CorpusText[] {
  return [
    ...samples(),
    ...specCases().map(({ topic, name, text }) => ({ name: `${topic} > ${name}`, text })),
  ];
}

/** The rows that are right and make stitches; starting chains on lines of their own are no rows. */
export function understoodRows({ name, text }: CorpusText): RealRow[] {
  return rowsIn(name, sceneOf(text));
}

/** The same of a pattern that was checked already. */
export function rowsIn(name: string, scene: Scene): RealRow[] {
  return scene.worked.pieces.flatMap((piece) =>
    piece.rows.filter(isUnderstood).map((row) => ({ name, scene, piece, row })),
  );
}

function isUnderstood({ result, line, outcome }: WorkedRow): boolean {
  return result === "ok" && line.kind !== "foundation" && (outcome?.makes ?? []).some((n) => (n ?? 0) > 0);
}
