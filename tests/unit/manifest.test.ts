import { readdirSync, readFileSync } from "node:fs";
import { dirname } from "node:path/posix";
import { expect, test } from "vitest";
import manifest from "../../package.json";
import english from "../../package.nls.json";
import { madeParts } from "../../server/manifest/made-parts";
import { fileEntry } from "../../server/src/cli/file-entry";
import { findingLines } from "../../server/src/cli/finding-lines";
import { allRules } from "../../server/src/rules/all-rules";
import { Checker } from "../../server/src/workspace/checker";
import { Prover } from "../../server/src/workspace/prover";
import { settingsTable } from "../../server/src/workspace/settings-table";

const root = new URL("../../", import.meta.url);
const texts: Readonly<Record<string, string>> = english;
const keys = [...JSON.stringify(manifest).matchAll(/"%([^"%]+)%"/g)].map(([, key = ""]) => key);
/** What is shown where the manifest names a text. */
const shown = (named: string) => texts[named.slice(1, -1)] ?? named;
const settings: Readonly<Record<string, object>> = manifest.contributes.configuration.properties;
const severities = ["error", "warning", "information", "hint", "off"];

function fileText(path: string): string {
  return readFileSync(new URL(path, root), "utf8");
}

test.each(madeParts)(
  "$file has the settings as the table of settings has them (npm run manifest)",
  (part) => {
    const text = fileText(part.file);
    expect(text).toBe(part.remade(text));
  },
);

test("each rule has a setting with the rule's own severity as default, or off where it starts so, and no setting is without a rule", () => {
  const defaults = Object.entries(settings)
    .filter(([name]) => name.startsWith("loopledger.rules."))
    .map(([name, setting]) => ({ name, ...setting }));
  const expected = allRules.map(({ id, severity, startsOff }) => ({
    name: `loopledger.rules.${id}`,
    default: startsOff ? "off" : severity,
  }));
  expect(defaults).toHaveLength(expected.length);
  expect(defaults).toEqual(expect.arrayContaining(expected.map((each) => expect.objectContaining(each))));
  for (const setting of defaults) expect(setting).toMatchObject({ enum: severities, scope: "resource" });
});

test("every setting says what it does, in one paragraph that a table can hold", () => {
  for (const { name, text } of settingsTable) {
    expect(text, name).toMatch(/^\p{Lu}.*\.$/u);
    expect(text, name).not.toMatch(/[|\n]/);
  }
});

test("the page for designers explains each rule", () => {
  for (const { id } of allRules) expect(fileText("README.md")).toContain(`\`${id}\``);
});

test("the icon is a square PNG of 128 pixels at least", () => {
  // Marketplace rule, from memory: 128 × 128 or larger. The header is that of the PNG specification, section 11.2.2.
  const picture = readFileSync(new URL(manifest.icon, root));
  expect(picture.subarray(1, 4).toString()).toBe("PNG");
  const [width, height] = [picture.readUInt32BE(16), picture.readUInt32BE(20)];
  expect(width).toBe(height);
  expect(width).toBeGreaterThanOrEqual(128);
});

test("the bracket marks and the colours are files that can be read", () => {
  const [language] = manifest.contributes.languages;
  const [grammar] = manifest.contributes.grammars;
  expect(JSON.parse(fileText(language?.configuration ?? ""))).toHaveProperty("brackets");
  expect(JSON.parse(fileText(grammar?.path ?? ""))).toMatchObject({ scopeName: grammar?.scopeName });
});

test("the snippets are patterns without a query, as they come", () => {
  const [{ path }] = (JSON.parse(fileText("package.json")) as Snippets).contributes.snippets;
  const snippets = JSON.parse(fileText(path)) as Record<string, { prefix: string; body: string | string[] }>;
  expect(Object.keys(snippets)).toEqual(["Pattern", "Piece", "Flat piece", "Round", "Special stitch"]);
  for (const [name, { body }] of Object.entries(snippets)) {
    const text = [body]
      .flat()
      .join("\n")
      .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, "$1")
      .replace(/\$\{\d+:([^}]*)\}|\$0/g, "$1");
    const wrong = new Checker().check(name === "Round" ? `Rnd 0: fsc 12, join (12)\n${text}` : text).findings;
    expect(
      wrong.filter(({ rule }) => !/^row-|abbreviation$/.test(rule)),
      `${name}: ${text}`,
    ).toEqual([]);
  }
});

test("every text that the manifest names is there, and no other", () => {
  expect(Object.keys(texts).sort()).toEqual([...keys].sort());
});

test("another language has texts that the manifest names, with the same commands in them", () => {
  const others = readdirSync(root).filter((name) => /^package\.nls\..+\.json$/.test(name));
  expect(others).not.toEqual([]);
  const links = (text = "") => text.match(/\(command:[^)]*\)/g) ?? [];
  for (const name of others)
    for (const [key, text] of Object.entries(JSON.parse(fileText(name)) as Record<string, string>)) {
      expect(keys, name).toContain(key);
      expect(links(text), `${name}: ${key}`).toEqual(links(texts[key]));
    }
});

const clientSources = readdirSync(new URL("client/src/", root)).map((name) => fileText(`client/src/${name}`));

test("whatever the client says is in the German bundle, with the same places for what is filled in, and nothing else is", () => {
  const said = clientSources.flatMap((text) => [...text.matchAll(/l10n\.t\(\s*"((?:[^"\\]|\\.)*)"/g)]);
  const bundle = JSON.parse(fileText(`${manifest.l10n}/bundle.l10n.de.json`)) as Record<string, string>;
  expect(Object.keys(bundle).sort()).toEqual([...new Set(said.map(([, text = ""]) => text))].sort());
  const places = (text: string) => (text.match(/\{\d\}/g) ?? []).sort();
  for (const [english, german] of Object.entries(bundle))
    expect(places(german), english).toEqual(places(english));
});

test("the client says nothing that cannot be translated", () => {
  const plain = clientSources.flatMap((text) => [
    ...text.matchAll(
      /\b(?:(?:tell|show\w+Message)\(|(?:title|prompt|placeHolder|detail|label):)\s*(?:"([^"]*)"|`([^`]*)`)/g,
    ),
  ]);
  const inWords = plain.map(([, plain, filled]) => plain ?? filled?.replace(/\$\{[^}]*\}/g, "") ?? "");
  expect(inWords.filter((text) => /\p{L}/u.test(text))).toEqual([]);
});

test("whatever the manifest shows in words is among the texts that can be translated", () => {
  const plain = [
    ...JSON.stringify(manifest.contributes).matchAll(
      /"(title|description|markdownDescription|altText|contents|label)":"([^"%][^"]*)"/g,
    ),
  ];
  // The name of the extension stays as it is.
  expect(plain.map(([, , text]) => text).filter((text) => text !== "Loopledger")).toEqual([]);
});

const templates = new URL("client/templates/", root);

test.each(readdirSync(templates))(
  "the template %s is a pattern without a query, every row of it checked",
  (name) => {
    const {
      findings,
      quietFindings = [],
      pieces,
    } = new Checker().check(readFileSync(new URL(name, templates), "utf8"));
    expect([...findings, ...quietFindings].map(({ message }) => message)).toEqual([]);
    const rows = pieces.flatMap((piece) => piece.rows);
    expect(rows.length).toBeGreaterThan(4);
    for (const { result } of rows) expect(result).toBe("ok");
  },
);

const { commands, menus, walkthroughs, problemMatchers } = manifest.contributes;
const ids = new Set(commands.map(({ command }) => command));

test("whatever a menu or the walkthrough names is a command", () => {
  const inMenus = Object.values(menus).flatMap((items) => items.map(({ command }) => command));
  const steps = walkthroughs.flatMap(({ steps }) => steps);
  const linked = steps.flatMap(({ description }) =>
    [...shown(description).matchAll(/\(command:([\w.]+)\)/g)].map(([, id = ""]) => id),
  );
  expect(linked.length).toBeGreaterThan(1);
  for (const id of [...inMenus, ...linked]) expect(ids, id).toContain(id);
});

test("each step of the walkthrough has a picture that is shipped, told in words too", () => {
  const shipped = fileText(".vscodeignore");
  for (const { media } of walkthroughs.flatMap(({ steps }) => steps)) {
    expect(readFileSync(new URL(media.image, root)).subarray(1, 4).toString()).toBe("PNG");
    expect(shipped).toContain(`!${dirname(media.image)}/*.png`);
    expect(shown(media.altText)).toMatch(/^\p{Lu}.*\.$/u);
  }
});

test("what the command line writes of a finding is understood by the problem matcher", () => {
  const [matcher] = problemMatchers;
  const text = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)";
  const report = new Checker().check(text);
  const prover = new Prover(text, report.findings, (changed) => new Checker().check(changed));
  const lines = findingLines(fileEntry("samples/a pouch.crochet", text, report, prover));
  const read = lines.map((line) => new RegExp(matcher?.pattern.regexp ?? "").exec(line));
  expect(read[0]?.slice(1, 5)).toEqual(["samples/a pouch.crochet", "2", "8", "error"]);
  for (const [i, found] of read.entries()) expect(found, lines[i]).not.toBeNull();
});

interface Snippets {
  readonly contributes: { readonly snippets: readonly [{ readonly path: string }] };
}

test("nothing but a pattern starts the extension", () => {
  expect(manifest.activationEvents).toEqual([]);
});
