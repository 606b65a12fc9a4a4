import { readFileSync } from "node:fs";
import { decode } from "../lsp/files/decode";
import { whyNotRead } from "../lsp/files/file-faults";
import type { Checker } from "../workspace/checker";
import { copiesAtMost, Prover } from "../workspace/prover";
import { type Severities, turnedOn, withSeverities } from "../workspace/severities";
import { fileEntry } from "./file-entry";
import type { Output } from "./output";
import { type FileEntry, STANDARD_INPUT, type UnreadableEntry } from "./report-shape";
import { writeUnreadable } from "./unreadable";

export type CreateChecker = () => Pick<Checker, "check" | "work">;

/** What checking needs besides the names. */
export interface CheckingHost {
  readonly createChecker: CreateChecker;
  readonly input: AsyncIterable<Uint8Array>;
  readonly severities: Severities;
}

/** Reads and checks one file, or standard input; a fault becomes a reason and never stops the other files. */
export async function checkFile(file: string, host: CheckingHost): Promise<FileEntry | UnreadableEntry> {
  const content = await readPatternText(file, host.input);
  return "reason" in content ? { file, reason: content.reason } : checkText(file, content.text, host);
}

/** The text of one file, or of standard input; or why it cannot be read. */
export async function readPatternText(
  file: string,
  input: AsyncIterable<Uint8Array>,
): Promise<{ readonly text: string } | { readonly reason: string }> {
  try {
    return decode(file === STANDARD_INPUT ? await readAll(input) : readFileSync(file));
  } catch (fault) {
    return { reason: whyNotRead(fault) };
  }
}

/** The same for a command that works on one text: null, and why on the other stream, where it cannot be read. */
export async function readOrTell(
  file: string,
  { input, output }: { readonly input: AsyncIterable<Uint8Array>; readonly output: Output },
): Promise<string | null> {
  const content = await readPatternText(file, input);
  if ("text" in content) return content.text;
  writeUnreadable([{ file, reason: content.reason }], output);
  return null;
}

function checkText(
  file: string,
  text: string,
  { createChecker, severities }: CheckingHost,
): FileEntry | UnreadableEntry {
  try {
    const checker = createChecker();
    const report = checker.check(text);
    const prover = new Prover(text, report.findings, (copy) => checker.check(copy), copiesAtMost(text));
    const findings = [...withSeverities(report.findings, severities), ...turnedOn(report, severities)];
    return fileEntry(file, text, { ...report, findings }, prover);
  } catch (fault) {
    const detail = fault instanceof Error ? fault.message : String(fault);
    return {
      file,
      reason: `Nothing in it was checked, because of a fault in Loopledger (${detail}). Please report it.`,
    };
  }
}

async function readAll(input: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of input) chunks.push(chunk);
  return Buffer.concat(chunks);
}
