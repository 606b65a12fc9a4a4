import { readdirSync, readFileSync } from "node:fs";
import { parseAst } from "vitest/node";

/* The texts of the server as its sources have them, found by a parser from elsewhere: none is overlooked. */

const sources = new URL("../../server/src/", import.meta.url);

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [part: string]: unknown;
}

/** A text in a source, with {0}, {1} … for what is put in. */
export interface SourceText {
  /** `rules/wording.ts`. */
  readonly file: string;
  readonly line: number;
  readonly text: string;
  /** It is told in the reader's language. */
  readonly told: boolean;
  /** What it stands in, innermost last. */
  readonly within: readonly Node[];
}

/** Every text of the sources below some folders of the server; texts of types and imports are none. */
export function textsIn(...folders: readonly string[]): SourceText[] {
  return readdirSync(sources, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts") && folders.some((folder) => file.startsWith(`${folder}/`)))
    .flatMap(textsOf);
}

function textsOf(file: string): SourceText[] {
  const source = readFileSync(new URL(file, sources), "utf8");
  const found: SourceText[] = [];
  const visit = (value: unknown, within: readonly Node[]): void => {
    if (Array.isArray(value)) for (const one of value) visit(one, within);
    if (!isNode(value) || isNoText.test(value.type)) return;
    const text = textOf(value);
    const line = source.slice(0, value.start).split("\n").length;
    if (text !== null) found.push({ file, line, text, told: isTold(value, within), within });
    for (const part of Object.values(value)) visit(part, [...within, value]);
  };
  visit(parseAst(source, { lang: "ts" }, file).body, []);
  return found;
}

const isNoText = /^(?:ImportDeclaration|TS(?:Interface|TypeAlias|TypeAnnotation|TypeParameter)\w*)$/;

function isNode(value: unknown): value is Node {
  return typeof value === "object" && value !== null && "type" in value && typeof value.type === "string";
}

function textOf(node: Node): string | null {
  if (node.type === "Literal") return typeof node.value === "string" ? node.value : null;
  if (node.type !== "TemplateLiteral") return null;
  const parts = node.quasis as readonly { readonly value: { readonly cooked: string } }[];
  return parts.map(({ value }) => value.cooked).reduce((before, part, i) => `${before}{${i - 1}}${part}`);
}

/** say`…`, or a value in the table of sayings({ … }). */
function isTold(node: Node, within: readonly Node[]): boolean {
  const [call, , property] = within.slice(-3);
  return isNamed(within.at(-1)?.tag, "say") || (isNamed(call?.callee, "sayings") && property?.value === node);
}

function isNamed(node: unknown, name: string): boolean {
  return isNode(node) && node.name === name;
}
