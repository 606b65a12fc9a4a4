import { mirroredPiece, otherName } from "../../reshape/mirrored-piece";
import { isRefusal } from "../../reshape/row-trial";
import { say } from "../../text/say";
import { pieceAround } from "../placed-row";
import type { ActionSource } from "./action";

/** What only the prose about all pieces can say. */
const ofAssembly = new Set(["piece-not-used", "wrong-number-of-pieces"]);

/** The left piece from the right, written behind it, where there is none yet. */
export const mirrorPiece: ActionSource = (scene, focus) => {
  const piece = pieceAround(scene.worked, focus.end);
  const other = piece && otherName(piece.piece.name);
  if (!piece || !other || scene.worked.pieces.some((one) => one.piece.name === other)) return [];
  const found = mirroredPiece(scene.worked, piece);
  if (isRefusal(found)) return [];
  const after = scene.prover.aftermath([found.edit], []);
  if (!after || after.fresh.some(({ rule }) => !ofAssembly.has(rule))) return [];
  return [
    {
      kind: "rewrite",
      title: say`Write ${found.name} as the mirror image of ${piece.piece.name}`,
      mends: [],
      preferred: false,
      edits: () => [found.edit],
    },
  ];
};
