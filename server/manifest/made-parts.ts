import { type Setting, settingsTable } from "../src/workspace/settings-table";

const section = "loopledger";

/** A file of the project as far as it is made from the table of settings. */
export interface MadePart {
  /** Below the root of the project. */
  readonly file: string;
  /** The file's text with its made part as it must be. */
  remade(text: string): string;
}

export const madeParts: readonly MadePart[] = [
  { file: "package.json", remade: remadeManifest },
  { file: "package.nls.json", remade: remadeTexts },
  { file: "README.md", remade: remadePage },
];

/** `contributes.configuration.properties`; all else stays as it is. */
function remadeManifest(text: string): string {
  const manifest = JSON.parse(text);
  manifest.contributes.configuration.properties = Object.fromEntries(settingsTable.map(propertyOf));
  return `${JSON.stringify(manifest, null, 2)}\n`;
}

/** What the manifest shows in English: the texts written by hand, then those of the settings. */
function remadeTexts(text: string): string {
  const byHand = Object.entries(JSON.parse(text)).filter(([key]) => !key.startsWith("setting."));
  const made = settingsTable.map((setting) => [keyOf(setting), setting.text]);
  return `${JSON.stringify(Object.fromEntries([...byHand, ...made]), null, 2)}\n`;
}

function keyOf({ name }: Pick<Setting, "name">): string {
  return `setting.${name}`;
}

function propertyOf({ values, scope, ...setting }: Setting, index: number): [string, object] {
  const allowed = values ? { enum: values } : {};
  const property = {
    type: typeof setting.default,
    ...allowed,
    default: setting.default,
    scope,
    order: index + 1,
    markdownDescription: `%${keyOf(setting)}%`,
  };
  return [`${section}.${setting.name}`, property];
}

const isOfRule = ({ name }: Setting) => name.startsWith("rules.");

/** The table of what the checker tells, and that of the other settings, each between two marks. */
function remadePage(text: string): string {
  const rules = settingsTable
    .filter(isOfRule)
    .map(({ name, text, default: level }) => [`\`${name.slice("rules.".length)}\``, text, `\`${level}\``]);
  const others = settingsTable
    .filter((setting) => !isOfRule(setting))
    .map(({ name, text, default: value }) => [`\`${section}.${name}\``, text, `\`${value}\``]);
  const withRules = between(text, "rules", tableOf([["name", "what it finds", "shown as"], ...rules]));
  return between(withRules, "settings", tableOf([["setting", "what it does", "at first"], ...others]));
}

function between(text: string, name: string, made: string): string {
  const [before, behind] = [`<!-- ${name}: made by "npm run manifest" -->`, `<!-- end of ${name} -->`];
  const [start, end] = [text.indexOf(before), text.indexOf(behind)];
  if (start < 0 || end < start) throw new Error(`README.md has no part between ${before} and ${behind}.`);
  return `${text.slice(0, start + before.length)}\n${made}\n${text.slice(end)}`;
}

/** A Markdown table with even columns; the first row is its head. */
function tableOf(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const [head = "", ...lines] = rows.map((row) =>
    lineOf(row.map((cell, column) => cell.padEnd(widths[column] ?? 0))),
  );
  return [head, lineOf(widths.map((width) => "-".repeat(width))), ...lines].join("\n");
}

function lineOf(cells: readonly string[]): string {
  return `| ${cells.join(" | ")} |`;
}
