import { type OneSize, oneSizeEach } from "../../reshape/sizes/one-size";
import { keptBy } from "../../text/kept-by";
import { Checker } from "../../workspace/checker";
import { Prover } from "../../workspace/prover";
import type { Scene } from "../actions/action";

/** A pattern told for one of its sizes, as actions see it. */
export interface SizeScene {
  readonly one: OneSize;
  readonly scene: Scene;
}

/** The pattern for each of its sizes; null where a size told alone would not be read as one size. */
export const sizeScenes = keptBy((worked: Scene["worked"]): readonly SizeScene[] | null => {
  const scenes = oneSizeEach(worked).map((one): SizeScene => {
    const { worked: alone, report } = new Checker().work(one.text);
    const copies = new Checker(alone.copies());
    const prover = new Prover(one.text, report.findings, (copy) => copies.check(copy));
    return { one, scene: { text: one.text, report, worked: alone, findings: report.findings, prover } };
  });
  return scenes.every(({ scene }) => scene.worked.context.sizes.length === 1) ? scenes : null;
});
