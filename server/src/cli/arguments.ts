import { parseArgs } from "node:util";

export type Format = "text" | "json";

/** What the arguments ask for. */
export type Task =
  | { readonly command: "check"; readonly format: Format; readonly names: readonly string[] }
  | { readonly command: "lsp" | "help" | "version" }
  | { readonly command: "wrong-usage"; readonly message: string };

const OPTIONS = {
  format: { type: "string" },
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
  if (command === "check") return checkTask(values.format, names);
  if (command === "lsp") return serverTask(values.stdio, names);
  if (command === undefined) return wrong("Say what to do, for example: loopledger check pouch.crochet");
  return wrong(`There is no command "${command}". To check a pattern: loopledger check ${command}`);
}

function checkTask(format: unknown = "text", names: readonly string[]): Task {
  if (format !== "text" && format !== "json") return wrong("--format is followed by text or json.");
  if (names.length === 0)
    return wrong("Say which files to check, for example: loopledger check pouch.crochet");
  return { command: "check", format, names };
}

function serverTask(stdio: unknown, names: readonly string[]): Task {
  if (names.length > 0) return wrong("loopledger lsp takes no files; the editor sends the text.");
  if (!stdio) return wrong("The language server is started with: loopledger lsp --stdio");
  return { command: "lsp" };
}

function wrong(message: string): Task {
  return { command: "wrong-usage", message };
}
