import { describe, expect, test } from "vitest";
import { DiagnosticSeverity, DidChangeConfigurationNotification } from "vscode-languageserver-protocol/node";
import { readSettings } from "../../server/src/lsp/settings";
import { inProcess, PULL_AND_SETTINGS, PUSH, until } from "./client";

const URI = "file:///rope-coaster.crochet";
const TEXT = "Rnd 1: misfit (6)\nRnd 2: hm (6)\nRnd 3: odd (6)\n";

describe("severities of rules", () => {
  test("are asked of the client and followed when they change", async () => {
    const client = inProcess();
    client.settings = { rules: { "does-not-fit": "hint", ambiguous: "off" } };
    await client.initialize(PULL_AND_SETTINGS);
    await client.open(URI, TEXT);
    expect(await client.pullItems(URI)).toMatchObject([
      { code: "does-not-fit", severity: DiagnosticSeverity.Hint },
      { code: "not-understood", severity: DiagnosticSeverity.Information },
    ]);
    expect(client.registered).toEqual(["workspace/didChangeConfiguration"]);
    const { resultId } = await client.pull(URI);
    client.settings = { rules: { "does-not-fit": "off", "not-understood": "warning" } };
    await client.connection.sendNotification(DidChangeConfigurationNotification.type, { settings: null });
    await until(() => client.refreshes || undefined);
    expect(await client.pull(URI, resultId)).toMatchObject({
      kind: "full",
      items: [
        { code: "ambiguous", severity: DiagnosticSeverity.Warning },
        { code: "not-understood", severity: DiagnosticSeverity.Warning },
      ],
    });
  });

  test("come with initialization from a client that answers no questions, or are told to the server", async () => {
    const client = inProcess();
    await client.initialize(PUSH, { rules: { "does-not-fit": "off", ambiguous: "error" } });
    await client.open(URI, TEXT);
    expect((await client.publishedAfter(0)).diagnostics).toMatchObject([
      { code: "ambiguous", severity: DiagnosticSeverity.Error },
      { code: "not-understood" },
    ]);
    const settings = { loopledger: { rules: { ambiguous: "off" } } };
    await client.connection.sendNotification(DidChangeConfigurationNotification.type, { settings });
    expect((await client.publishedAfter(1)).diagnostics.map(({ code }) => code)).toEqual([
      "does-not-fit",
      "not-understood",
    ]);
  });

  test("that are no severities are named in the log and not used", async () => {
    const client = inProcess();
    client.settings = { rules: { "does-not-fit": "loud" } };
    await client.initialize(PULL_AND_SETTINGS);
    await client.open(URI, TEXT);
    expect((await client.pullItems(URI))[0]).toMatchObject({ severity: DiagnosticSeverity.Error });
    expect(client.logged.join()).toContain('loopledger.rules: does-not-fit is "loud"');
  });

  test("that name no rule are named in the log, with what may have been meant", async () => {
    const client = inProcess();
    client.settings = { rules: { "does-not-fti": "off", nonsense: { deep: [1] } } };
    await client.initialize(PULL_AND_SETTINGS);
    await client.open(URI, TEXT);
    expect((await client.pullItems(URI))[0]).toMatchObject({ code: "does-not-fit" });
    expect(client.logged.join("\n")).toContain('There is no rule "does-not-fti". Did you mean does-not-fit?');
    expect(client.logged.join("\n")).toContain('There is no rule "nonsense". The rules are does-not-fit,');
  });

  test.each([undefined, null, 7, "rules", [], {}, { rules: null }, { rules: "off" }])(
    "in unusable settings (%j) are simply not set",
    (section) => {
      expect(readSettings(section).severities.size).toBe(0);
    },
  );
});
