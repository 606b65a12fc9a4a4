import { publishingPage } from "../features/publishing-page";
import { Checker } from "../workspace/checker";
import { copiesAtMost, Prover } from "../workspace/prover";
import type { Finding } from "../workspace/report";
import type { Output } from "./output";
import { readOrTell } from "./pattern-file";

/** Writes the page to read before publishing to standard output; gives the exit status. */
export async function writePublishingPage(
  file: string,
  host: { readonly input: AsyncIterable<Uint8Array>; readonly output: Output },
): Promise<number> {
  const text = await readOrTell(file, host);
  if (text === null) return 2;
  const checker = new Checker();
  const checked = checker.work(text);
  const { findings } = checked.report;
  const prover = new Prover(text, findings, (copy) => checker.check(copy), copiesAtMost(text));
  const fixesOf = (finding: Finding) => prover.fixesOf(finding).map(({ title }) => title);
  host.output.out(publishingPage({ checked, findings, severities: new Map(), fixesOf }));
  return findings.some(({ severity }) => severity === "error") ? 1 : 0;
}
