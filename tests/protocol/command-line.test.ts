import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { bundle, TEST_VERSION, temporaryFolder } from "./bundles";
import { runCommand } from "./command";
import { HOSTILE_TEXTS } from "./hostile-texts";
import { checkedReport } from "./report-schema";

const RIGHT = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\n";
const WRONG = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x5 (12)\n";
const NO_ROW = "A poem about the sea,\nand none about yarn.\n";

let script: string;
beforeAll(async () => {
  script = await bundle("cli/main.ts");
});

/** A folder with some files in it; names may hold folders. */
function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = temporaryFolder();
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(join(folder, name, ".."), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  return folder;
}

const check = (cwd: string, ...args: string[]) => runCommand(script, ["check", ...args], { cwd });

const json = async (cwd: string, ...names: string[]) => {
  const { out, ...rest } = await check(cwd, "--format", "json", ...names);
  return { ...rest, report: checkedReport(out) };
};

describe("a pattern with a row that does not fit", () => {
  test("ends with status 1 and names the row, as text", async () => {
    const { status, out, err } = await check(folderWith({ "buoy.crochet": WRONG }), "buoy.crochet");
    expect(out).toMatch(/^buoy\.crochet:2:\d+: error: /m);
    expect(out).toMatch(/^1\. .*Rnd 2/m);
    expect(out).toContain("2 rows checked, 1 query.");
    expect(err).toBe("");
    expect(status).toBe(1);
  });

  test("ends with status 1 and names the row, as JSON", async () => {
    const { status, report, err } = await json(folderWith({ "buoy.crochet": WRONG }), "buoy.crochet");
    expect(report.files[0]).toMatchObject({
      file: "buoy.crochet",
      pieces: [
        {
          rows: [
            { head: "Rnd 1", result: "ok" },
            { head: "Rnd 2", line: 2, needs: [5], has: [6] },
          ],
        },
      ],
      findings: [{ rule: "does-not-fit", severity: "error", line: 2 }],
    });
    expect(err).toBe("");
    expect(status).toBe(1);
  });

  test("read from standard input is found as well", async () => {
    const { status, out } = await runCommand(script, ["check", "-"], { input: WRONG });
    expect(out).toMatch(/^\(standard input\):2:\d+: error: /m);
    expect(status).toBe(1);
  });
});

test("a pattern that is right ends with status 0", async () => {
  const { status, out, err } = await check(folderWith({ "buoy.crochet": RIGHT }), "buoy.crochet");
  expect(out).toContain("2 rows checked, no queries.");
  expect(out).not.toContain("Queries");
  expect(err).toBe("");
  expect(status).toBe(0);
});

describe("a file without a row", () => {
  test.each([
    ["an empty file", ""],
    ["only a byte order mark", "\ufeff"],
    ["only prose", NO_ROW],
  ])("%s", async (_, content) => {
    const folder = folderWith({ "notes.crochet": content });
    const { status, out } = await check(folder, "notes.crochet");
    expect(out).toContain("There is no row to check.");
    expect(status).toBe(0);
    expect((await json(folder, "notes.crochet")).report.files[0]?.pieces.flatMap(({ rows }) => rows)).toEqual(
      [],
    );
  });
});

describe("a file that cannot be read", () => {
  const LATIN_1 = Uint8Array.from([...Buffer.from("Rnd 1: 6 sc (6)\nRnd 2: caf"), 0xe9]);
  const CASES: readonly (readonly [string, Uint8Array | string | null, RegExp])[] = [
    ["that is missing", null, /no file or folder of this name/],
    ["that is binary", Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 1]), /binary/],
    ["that is text with a NUL byte", "Rnd 1: 6 sc\u0000 (6)", /binary/],
    ["in an older encoding", LATIN_1, /Line 2 .*UTF-8/],
    ["with damaged UTF-16", Uint8Array.from([0xff, 0xfe, 0x00, 0xd8, 0x41]), /damaged/],
  ];

  test.each(CASES)("%s gets its reason; other files are checked and printed", async (_, content, reason) => {
    const folder = folderWith({
      "right.crochet": RIGHT,
      ...(content === null ? {} : { "bad.crochet": content }),
    });
    const text = await check(folder, "bad.crochet", "right.crochet");
    expect(text.err).toMatch(/^bad\.crochet: /);
    expect(text.err).toMatch(reason);
    expect(text.out).toContain("right.crochet");
    expect(text.status).toBe(2);
    const { report, err, status } = await json(folder, "bad.crochet", "right.crochet");
    expect(report.unreadable).toMatchObject([{ file: "bad.crochet", reason: expect.stringMatching(reason) }]);
    expect(report.files).toMatchObject([{ file: "right.crochet" }]);
    expect(err).toMatch(reason);
    expect(status).toBe(2);
  });

  test("outranks a row that does not fit", async () => {
    const folder = folderWith({ "wrong.crochet": WRONG });
    expect((await check(folder, "wrong.crochet", "missing.crochet")).status).toBe(2);
  });

  test("because it is a link to itself gets its reason", async () => {
    const folder = folderWith({});
    symlinkSync("loop.crochet", join(folder, "loop.crochet"));
    const { status, err } = await check(folder, "loop.crochet");
    expect(err).toMatch(/leads back to itself/);
    expect(status).toBe(2);
  });
});

describe("encodings", () => {
  const utf16le = Buffer.from(`\ufeff${RIGHT}`, "utf16le");
  test.each([
    ["UTF-8 with a byte order mark", Buffer.from(`\ufeff${RIGHT}`)],
    ["UTF-16, little end first", utf16le],
    ["UTF-16, big end first", Buffer.from(utf16le).swap16()],
  ])("%s is read like plain UTF-8", async (_, bytes) => {
    const folder = folderWith({ "plain/buoy.crochet": RIGHT, "other/buoy.crochet": bytes });
    const plain = await json(join(folder, "plain"), "buoy.crochet");
    const other = await json(join(folder, "other"), "buoy.crochet");
    expect(other).toEqual(plain);
    expect(other.report.files).toHaveLength(1);
  });
});

describe("names of files", () => {
  const FILES = {
    "a.crochet": RIGHT,
    "b.crochet": RIGHT,
    "notes.txt": NO_ROW,
    "stall/toy.crochet": RIGHT,
    "stall/LOUD.CROCHET": RIGHT,
    "stall/deep/hat.crochet": RIGHT,
    ".hidden/c.crochet": RIGHT,
    "node_modules/d.crochet": RIGHT,
    "what?.crochet": RIGHT,
  };
  const ALL = [
    "a.crochet",
    "b.crochet",
    "stall/LOUD.CROCHET",
    "stall/deep/hat.crochet",
    "stall/toy.crochet",
    "what?.crochet",
  ];
  const CASES: readonly (readonly [names: readonly string[], files: readonly string[]])[] = [
    [
      ["b.crochet", "a.crochet"],
      ["b.crochet", "a.crochet"],
    ],
    [["."], ALL],
    [["stall/"], ["stall/LOUD.CROCHET", "stall/deep/hat.crochet", "stall/toy.crochet"]],
    [["*.crochet"], ["a.crochet", "b.crochet", "what?.crochet"]],
    [["?.crochet"], ["a.crochet", "b.crochet"]],
    [["what?.crochet"], ["what?.crochet"]],
    [
      ["**/*.crochet"],
      ["a.crochet", "b.crochet", "what?.crochet", "stall/toy.crochet", "stall/deep/hat.crochet"],
    ],
    [["st*/*/h?t.crochet"], ["stall/deep/hat.crochet"]],
    [["*/deep/../toy.crochet"], ["stall/toy.crochet"]],
    [["notes.txt"], ["notes.txt"]],
    [
      ["a.crochet", "*.crochet", "a.crochet"],
      ["a.crochet", "b.crochet", "what?.crochet"],
    ],
    [["--", "a.crochet"], ["a.crochet"]],
  ];

  test.each(CASES)("%j", async (names, files) => {
    const { report, status } = await json(folderWith(FILES), ...names);
    expect(report.files.map(({ file }) => file)).toEqual(files);
    expect(report.unreadable).toEqual([]);
    expect(status).toBe(0);
  });

  test("a full path with a wildcard", async () => {
    const folder = folderWith({ "a.crochet": RIGHT });
    const { report } = await json("/", join(folder, "*.crochet"));
    expect(report.files.map(({ file }) => file)).toEqual([join(folder, "a.crochet")]);
  });

  test.each([
    ["a folder with no pattern", "empty", /no pattern in this folder/],
    ["a wildcard that nothing matches", "*.yarn", /No file has a name like this/],
  ])("%s is said and ends with status 2", async (_, name, reason) => {
    const { status, err } = await check(folderWith({ "empty/notes.txt": NO_ROW }), name);
    expect(err).toMatch(reason);
    expect(status).toBe(2);
  });
});

describe("--severity", () => {
  test("makes a rule louder or softer, or turns it off", async () => {
    const folder = folderWith({ "buoy.crochet": WRONG });
    const off = await check(folder, "--severity", "does-not-fit=off", "buoy.crochet");
    expect(off.out).toContain("no queries");
    expect(off.status).toBe(0);
    const softer = await check(folder, "--severity", "does-not-fit=warning", "buoy.crochet");
    expect(softer.out).toMatch(/^buoy\.crochet:2:\d+: warning: /m);
    expect(softer.out).toMatch(/^1\. /m);
    expect(softer.status).toBe(0);
  });

  test("may be given several times; the last one of a rule holds", async () => {
    const folder = folderWith({ "buoy.crochet": `${WRONG}Rnd 3: lotus x6\n` });
    const severities = ["does-not-fit=off", "not-understood=error", "does-not-fit=hint"];
    const options = severities.flatMap((one) => ["--severity", one]);
    const { report, status } = await json(folder, ...options, "buoy.crochet");
    expect(report.files[0]?.findings).toMatchObject([
      { rule: "does-not-fit", severity: "hint" },
      { rule: "not-understood", severity: "error" },
    ]);
    expect(status).toBe(1);
  });
});

describe("usage", () => {
  test.each([[["--help"]], [["-h"]], [["check", "--help"]]])("%j gives help", async (args) => {
    const { status, out } = await runCommand(script, args);
    expect(out).toContain("loopledger check [--format text|json] [--severity RULE=HOW]... FILE...");
    expect(status).toBe(0);
  });

  test("--version gives the version", async () => {
    expect(await runCommand(script, ["--version"])).toEqual({ status: 0, out: `${TEST_VERSION}\n`, err: "" });
  });

  test.each([
    [[], /Say what to do/],
    [["check"], /Say which files/],
    [["check", "--format", "xml", "a.crochet"], /text or json/],
    [["check", "--format"], /text or json/],
    [["check", "--constructor", "a.crochet"], /no option --constructor/],
    [["check", "--severity", "a.crochet"], /followed by a rule/],
    [["check", "a.crochet", "--severity"], /followed by a rule/],
    [["check", "--severity", "wrong-cuont=off", "a.crochet"], /Did you mean wrong-count/],
    [["check", "--severity=wrong-count=loud", "a.crochet"], /use error, warning/],
    [["buoy.crochet"], /loopledger check buoy\.crochet/],
    [["lsp"], /loopledger lsp --stdio/],
    [["lsp", "--stdio", "a.crochet"], /takes no files/],
  ])("%j is answered with what to do, and status 2", async (args, message) => {
    const { status, out, err } = await runCommand(script, args);
    expect(err).toMatch(message);
    expect(err).toContain("loopledger --help");
    expect(out).toBe("");
    expect(status).toBe(2);
  });
});

describe("texts no one would write", () => {
  test.each(HOSTILE_TEXTS)("%s", async (_, text) => {
    const folder = folderWith({ "odd.crochet": text });
    const isBinary = text.includes("\0");
    const asText = await check(folder, "odd.crochet");
    const { report, status } = await json(folder, "odd.crochet");
    expect(report.unreadable).toHaveLength(isBinary ? 1 : 0);
    expect(report.files).toHaveLength(isBinary ? 0 : 1);
    expect(asText.out + asText.err).toContain("odd.crochet");
    expect(asText.status).toBe(status);
    expect(status).toBe(isBinary ? 2 : report.files[0]?.findings.some(isError) ? 1 : 0);
  });

  const isError = ({ severity }: { severity: string }) => severity === "error";
});

test("a reader that stops early is no fault", async () => {
  const folder = folderWith(
    Object.fromEntries(Array.from({ length: 300 }, (_, n) => [`${n}.crochet`, RIGHT])),
  );
  const child = spawn(process.execPath, [script, "check", "--format", "json", "."], {
    cwd: folder,
    stdio: ["ignore", "pipe", "pipe"],
  });
  const errors: Buffer[] = [];
  child.stderr.on("data", (bytes) => errors.push(bytes));
  child.stdout.destroy();
  expect(await once(child, "close")).toEqual([0, null]);
  expect(Buffer.concat(errors).toString()).toBe("");
});

test("a long report is delivered to its end", async () => {
  const folder = folderWith(
    Object.fromEntries(Array.from({ length: 300 }, (_, n) => [`${n}.crochet`, RIGHT])),
  );
  const { report, status } = await json(folder, ".");
  expect(report.files).toHaveLength(300);
  expect(status).toBe(0);
});

describe("a pattern in other terms", () => {
  const text = "Terms: US\nRnd 1: 6 sc in mr (6)\nRnd 2: glorp, sc 6 (6)\n";

  test("goes to standard output; what was left alone is told beside it", async () => {
    const folder = folderWith({ "buoy.crochet": text });
    const { status, out, err } = await runCommand(script, ["terms", "--to", "uk", "buoy.crochet"], {
      cwd: folder,
    });
    expect(out).toBe("Terms: UK\nRnd 1: 6 dc in mr (6)\nRnd 2: glorp, dc 6 (6)\n");
    expect(err).toBe('Left alone: "glorp" (line 3): it was not understood\n');
    expect(status).toBe(0);
  });

  test("that it has already comes out as it went in", async () => {
    const { out, err } = await runCommand(script, ["terms", "--to", "US", "-"], { input: text });
    expect(out).toBe(text);
    expect(err).toBe("(standard input) is in US terms already, or in another language.\n");
  });

  test("is not written where no terms are named, or no file is there", async () => {
    expect(await runCommand(script, ["terms", "buoy.crochet"])).toMatchObject({ status: 2, out: "" });
    expect(await runCommand(script, ["terms", "--to", "uk", "none.crochet"])).toMatchObject({
      status: 2,
      out: "",
    });
  });
});

test("the page to read before publishing goes to standard output, with the status of a check", async () => {
  const ask = (input: string) => runCommand(script, ["publish-check", "-"], { input });
  expect(await ask(WRONG)).toMatchObject({ status: 1, err: "" });
  const { status, out } = await ask(RIGHT);
  expect(out).toContain("2 of 2 rows checked");
  expect(status).toBe(0);
});
