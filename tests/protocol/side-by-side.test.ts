import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { type Checked, checkSideBySide } from "../../server/src/cli/side-by-side";
import { bundle, temporaryFolder } from "./bundles";
import { runCommand } from "./command";

// At least two helpers, whatever machine this runs on.
vi.mock("node:os", async (original) => ({
  ...(await original<typeof import("node:os")>()),
  availableParallelism: () => 3,
}));

const names = Array.from({ length: 200 }, (_, i) => `${i}.crochet`);
const here = (): Promise<Checked[]> => Promise.reject(new Error("Nothing was to be checked here."));

/** A helper that tells the name of each file, and breaks down over some. */
function helper(breaks: string): string {
  const script = join(temporaryFolder(), "helper.cjs");
  writeFileSync(
    script,
    `const { parentPort } = require("node:worker_threads");
    parentPort.on("message", ({ files }) => {
      if (files.some((file) => ${breaks}.includes(file))) throw new Error("invented fault");
      parentPort.postMessage(files.map((file) => ({ file, reason: "seen" })));
    });`,
  );
  return script;
}

test("many files are checked by helpers, and come in their order", async () => {
  const checked = await checkSideBySide(names, new Map(), { script: helper("[]"), checkHere: here });
  expect(checked.map(({ file }) => file)).toEqual(names);
});

test("a file over which a helper breaks down is told, and takes no other with it", async () => {
  const bad = ["17.crochet", "140.crochet", "141.crochet"];
  const checked = await checkSideBySide(names, new Map(), {
    script: helper(JSON.stringify(bad)),
    checkHere: here,
  });
  const told = checked.flatMap((one) => ("reason" in one && one.reason !== "seen" ? [one] : []));
  expect(checked.map(({ file }) => file)).toEqual(names);
  expect(told.map(({ file }) => file)).toEqual(bad);
  for (const { reason } of told) expect(reason).toMatch(/fault in Loopledger \(invented fault\)/);
});

test.each([
  ["breaks down", 'setImmediate(() => { throw new Error("invented fault"); });'],
  ["ends", "setImmediate(() => process.exit(0));"],
])("a helper that %s after it has answered is replaced, and no file is told of it", async (_, then) => {
  const script = join(temporaryFolder(), "helper.cjs");
  writeFileSync(
    script,
    `const { parentPort } = require("node:worker_threads");
    parentPort.on("message", ({ files }) => {
      parentPort.postMessage(files.map((file) => ({ file, reason: "seen" })));
      ${then}
    });`,
  );
  const few = names.slice(0, 90);
  const checked = await checkSideBySide(few, new Map(), { script, checkHere: here });
  expect(checked).toEqual(few.map((file) => ({ file, reason: "seen" })));
});

test("few files are checked here", async () => {
  const few = names.slice(0, 3);
  const checkHere = async (files: readonly string[]) => files.map((file) => ({ file, reason: "here" }));
  const checked = await checkSideBySide(few, new Map(), { script: "/nowhere", checkHere });
  expect(checked).toEqual(few.map((file) => ({ file, reason: "here" })));
});

test("the command line says of many files what it says of each", async () => {
  const script = await bundle("cli/main.ts");
  const folder = temporaryFolder();
  for (const [i, name] of names.entries())
    writeFileSync(join(folder, name), `Rnd 1: 6 sc in mr (6)\nRnd 2: inc x${5 + (i % 3)} (12)\n`);
  const all = await runCommand(script, ["check", "--format", "json", folder]);
  const { files } = JSON.parse(all.out) as { files: { file: string; findings: { rule: string }[] }[] };
  expect(files.map(({ file }) => file)).toEqual([...names].sort().map((name) => join(folder, name)));
  for (const { file, findings } of files) {
    const i = Number(/(\d+)\.crochet$/.exec(file)?.[1]);
    expect([file, findings.map(({ rule }) => rule)]).toEqual([file, i % 3 === 1 ? [] : ["does-not-fit"]]);
  }
  expect(all.status).toBe(1);
});
