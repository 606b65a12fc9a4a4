import { expect } from "vitest";
import type { Finding } from "../../server/src/rules/rule";
import { withEdits } from "../../server/src/text/span";
import { Checker } from "../../server/src/workspace/checker";

/** What one rule finds in a pattern. */
export function foundBy(rule: string, text: string): Finding[] {
  return new Checker().check(text).findings.filter((finding) => finding.rule === rule);
}

/** The only finding of a rule, with the text it stands on. */
export function onlyFinding(rule: string, text: string): Finding & { readonly on: string } {
  const all = foundBy(rule, text);
  expect(all.map(({ message }) => message)).toHaveLength(1);
  const [finding] = all as [Finding];
  return { ...finding, on: text.slice(finding.span.start, finding.span.end) };
}

/** The text with a fix made; the first one, or the one with this title. */
export function mended(rule: string, text: string, title?: string): string {
  const fixes = foundBy(rule, text).flatMap((finding) => finding.fixes);
  const fix = title === undefined ? fixes[0] : fixes.find((one) => one.title === title);
  if (!fix) throw new Error(`no fix ${title ?? ""} among ${fixes.map((one) => one.title).join(", ")}`);
  return withEdits(text, fix.edits());
}

/** A fix leaves nothing to find, and making it offers nothing more. */
export function expectClean(text: string): void {
  const { findings } = new Checker().check(text);
  expect(findings.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
}
