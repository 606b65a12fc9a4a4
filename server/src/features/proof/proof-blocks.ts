import { say } from "../../text/say";
import { sentenceStart } from "../../text/sentence";
import type { PlacedRow } from "../placed-row";
import { type Block, line } from "../shown/blocks";
import { placesShort } from "./place-names";
import { type Proof, type ProofTable, proofOf, sizesOf } from "./proof";
import type { ProofLine } from "./proof-lines";

/** More lines than this are for the copied proof, not for a hover. */
const linesAtMost = 14;

/** The proof of a row as tables; nothing where there is none. */
export function proofBlocks({ row, piece }: PlacedRow): Block[] {
  const proof = proofOf(row, piece);
  if (!proof) return [];
  return proof.tables.flatMap((table) => {
    const sizes = sizesOf(table, piece);
    return [...(sizes === null ? [] : [line(say`In ${sizes}:`)]), ...tableOf(proof, table)];
  });
}

function tableOf(proof: Proof, { lines }: ProofTable): Block[] {
  const isOver = lines.some(({ places }) => places !== "");
  const over = say`${sentenceStart(placesShort(proof.noun))} of ${proof.below}`;
  const head = [say`Step`, ...(isOver ? [over] : []), say`Sts made`, say`Worked`];
  const rows = lines.slice(0, linesAtMost).map((each, i) => rowOf(each, i, isOver));
  const more = lines.length - rows.length;
  const left =
    more > 0 ? [line(say`And ${more} more steps: copy the proof of this row to see them all.`)] : [];
  return [{ kind: "table", head, rows }, ...left];
}

function rowOf({ places, does, makes }: ProofLine, i: number, isOver: boolean): string[] {
  return [`${i + 1}`, ...(isOver ? [places] : []), makes, does];
}
