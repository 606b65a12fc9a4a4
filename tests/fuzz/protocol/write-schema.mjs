// `node tests/fuzz/protocol/write-schema.mjs`, after an update of the protocol's package: makes schema.json of
// answers.ts. The tool for it is fetched for this once; nothing else needs it.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const here = (name) => fileURLToPath(new URL(name, import.meta.url));
const from = "../../../node_modules/vscode-languageserver-protocol/package.json";
const { version } = JSON.parse(readFileSync(here(from), "utf8"));

const words = ["--yes", "ts-json-schema-generator@2.9.0", "--path", here("answers.ts"), "--type", "Answers"];
const tsconfig = ["--tsconfig", here("tsconfig.json"), "--additional-properties", "--no-type-check"];
const made = execFileSync("npx", [...words, ...tsconfig], { encoding: "utf8", maxBuffer: 2 ** 26 });

/** Numbers are whole in this protocol but for the shares of a colour; what a part is for, is said elsewhere. */
function tidied(node, name = "") {
  if (Array.isArray(node)) return node.map((one) => tidied(one));
  if (typeof node !== "object" || node === null) return node;
  if (name === "uinteger") return { type: "integer", minimum: 0, maximum: 2 ** 31 - 1 };
  if (name === "integer") return { type: "integer", minimum: -(2 ** 31), maximum: 2 ** 31 - 1 };
  const parts = Object.entries(node).filter(
    ([key, value]) =>
      !(key === "deprecated" || key === "$comment" || (key === "description" && typeof value === "string")),
  );
  return Object.fromEntries(parts.map(([key, value]) => [key, tidied(value, key)]));
}

const schema = { $comment: `vscode-languageserver-protocol ${version}`, ...tidied(JSON.parse(made)) };
writeFileSync(here("schema.json"), `${JSON.stringify(schema)}\n`);
