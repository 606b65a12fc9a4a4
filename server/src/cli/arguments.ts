import { parseArgs } from "node:util";
import { draftLanguages } from "../features/draft-in-language";
import { type MeasureOptions, usualOptions } from "../measure/materials";
import { type Language, languageNamed } from "../trade/languages/languages";
import type { SeveritySetting } from "../workspace/settings-table";
import { readSeverity, type Severities } from "../workspace/severities";

export type Format = "text" | "json";

/** What the arguments ask for. */
export type Task =
  | {
      readonly command: "check";
      readonly format: Format;
      readonly names: readonly string[];
      readonly severities: Severities;
    }
  | {
      readonly command: "measure";
      readonly format: Format;
      readonly names: readonly string[];
      readonly options: MeasureOptions;
    }
  | { readonly command: "terms"; readonly to: "US" | "UK"; readonly file: string }
  | { readonly command: "draft"; readonly language: Language; readonly file: string }
  | { readonly command: "publish-check"; readonly file: string }
  | { readonly command: "lsp" | "help" | "version" }
  | { readonly command: "wrong-usage"; readonly message: string };

const OPTIONS = {
  format: { type: "string" },
  severity: { type: "string", multiple: true },
  margin: { type: "string" },
  pace: { type: "string" },
  to: { type: "string" },
  in: { type: "string" },
  stdio: { type: "boolean" },
  help: { type: "boolean", short: "h" },
  version: { type: "boolean", short: "v" },
} as const;

/** Understands the arguments after the program's name; never throws. */
export function readArguments(args: readonly string[]): Task {
  const { values, positionals, tokens } = parseArgs({
    args: [...args],
    options: OPTIONS,
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const unknown = tokens.find((token) => token.kind === "option" && !Object.hasOwn(OPTIONS, token.name));
  if (unknown?.kind === "option") return wrong(`There is no option ${unknown.rawName}.`);
  if (values.help) return { command: "help" };
  if (values.version) return { command: "version" };
  const [command, ...names] = positionals;
  if (command === "check") return checkTask(values, names);
  if (command === "measure") return measureTask(values, names);
  if (command === "terms") return termsTask(values.to, names);
  if (command === "draft") return draftTask(values.in, names);
  if (command === "publish-check") return publishTask(names);
  if (command === "lsp") return serverTask(values.stdio, names);
  if (command === undefined) return wrong("Say what to do, for example: loopledger check pouch.crochet");
  return wrong(`There is no command "${command}". To check a pattern: loopledger check ${command}`);
}

interface CheckOptions {
  readonly format?: unknown;
  readonly severity?: unknown;
}

function checkTask({ format = "text", severity = [] }: CheckOptions, names: readonly string[]): Task {
  if (format !== "text" && format !== "json") return wrong("--format is followed by text or json.");
  const severities = readSeverities(Array.isArray(severity) ? severity : [severity]);
  if (typeof severities === "string") return wrong(severities);
  if (names.length === 0)
    return wrong("Say which files to check, for example: loopledger check pouch.crochet");
  return { command: "check", format, names, severities };
}

interface MeasureArguments {
  readonly format?: unknown;
  readonly margin?: unknown;
  readonly pace?: unknown;
}

function measureTask({ format = "text", margin, pace }: MeasureArguments, names: readonly string[]): Task {
  if (format !== "text" && format !== "json") return wrong("--format is followed by text or json.");
  const marginPercent = numberOf(margin, usualOptions.marginPercent, 0);
  if (marginPercent === null) return wrong("--margin is followed by the percent of yarn to spare: 15.");
  const stitchesPerMinute = numberOf(pace, usualOptions.stitchesPerMinute, 1);
  if (stitchesPerMinute === null) return wrong("--pace is followed by the stitches worked in a minute: 20.");
  if (names.length === 0)
    return wrong("Say which files to measure, for example: loopledger measure pouch.crochet");
  return { command: "measure", format, names, options: { marginPercent, stitchesPerMinute } };
}

/** Larger numbers are of no use anywhere. */
const greatest = 1_000;

function numberOf(written: unknown, usual: number, least: number): number | null {
  if (written === undefined) return usual;
  const n = typeof written === "string" && written.trim() !== "" ? Number(written) : Number.NaN;
  return n >= least && n <= greatest ? n : null;
}

/** `ambiguous=off`, `wrong-count=warning`; or what is wrong with one of them. */
function readSeverities(wanted: readonly unknown[]): Severities | string {
  const severities = new Map<string, SeveritySetting>();
  for (const one of wanted) {
    const [, rule, value] = /^([^=]+)=(.*)$/.exec(String(one)) ?? [];
    if (rule === undefined) return "--severity is followed by a rule and how loud it is: ambiguous=off.";
    const read = readSeverity(rule, value);
    if ("problem" in read) return `--severity ${one}: ${read.problem}`;
    severities.set(rule, read.severity);
  }
  return severities;
}

function termsTask(wanted: unknown, [file, ...others]: readonly string[]): Task {
  const to = (["US", "UK"] as const).find((terms) => terms.toLowerCase() === String(wanted).toLowerCase());
  if (!to) return wrong("Say which terms, for example: loopledger terms --to uk pouch.crochet");
  if (file === undefined || others.length > 0)
    return wrong("loopledger terms takes one file, or - for standard input.");
  return { command: "terms", to, file };
}

function draftTask(wanted: unknown, [file, ...others]: readonly string[]): Task {
  const language = draftLanguages.find((one) => one === languageNamed(String(wanted)));
  const all = draftLanguages.map(({ name }) => name).join(", ");
  if (!language) return wrong(`Say in which language, for example: --in german. There are ${all}.`);
  if (file === undefined || others.length > 0)
    return wrong("loopledger draft takes one file, or - for standard input.");
  return { command: "draft", language, file };
}

function publishTask([file, ...others]: readonly string[]): Task {
  if (file === undefined || others.length > 0)
    return wrong("loopledger publish-check takes one file, or - for standard input.");
  return { command: "publish-check", file };
}

function serverTask(stdio: unknown, names: readonly string[]): Task {
  if (names.length > 0) return wrong("loopledger lsp takes no files; the editor sends the text.");
  if (!stdio) return wrong("The language server is started with: loopledger lsp --stdio");
  return { command: "lsp" };
}

function wrong(message: string): Task {
  return { command: "wrong-usage", message };
}
