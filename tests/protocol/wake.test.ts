import { describe, expect, test } from "vitest";
import type { WakeEntry } from "../../server/src/lsp/wake";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL } from "./client";

const URI = "file:///cup.crochet";
const TEXT = "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc, inc) x6 (18)\nRnd 4: Rep Rnd 3.";

async function opened(text = TEXT): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(PULL);
  await client.open(URI, text);
  expect(await wake(client)).toEqual([]);
  return client;
}

function asked<R>(client: Client, name: string, more: object = {}): Promise<R> {
  return client.connection.sendRequest(`loopledger/${name}`, { textDocument: { uri: URI }, ...more });
}

function wake(client: Client): Promise<WakeEntry[]> {
  return asked(client, "wake");
}

describe("the wake of the last change", () => {
  test("is told with its places", async () => {
    const client = await opened();
    await client.replace(URI, "inc x6 (12)", "inc x4, 2 sc (10)");
    expect(await wake(client)).toMatchObject([
      { sort: "fit", name: "Rnd 3", mend: null, range: { start: { line: 2, character: 0 } } },
    ]);
  });

  test("is empty again when the change is undone", async () => {
    const client = await opened();
    await client.replace(URI, "inc x6 (12)", "inc x4, 2 sc (10)");
    await wake(client);
    await client.replace(URI, "inc x4, 2 sc (10)", "inc x6 (12)");
    expect(await wake(client)).toEqual([]);
  });

  test("can be left as it is", async () => {
    const client = await opened();
    await client.replace(URI, "inc x6 (12)", "inc x4, 2 sc (10)");
    const keys = (await wake(client)).map(({ key }) => key);
    await asked(client, "acceptWake", { keys });
    expect(await wake(client)).toEqual([]);
  });

  test("is mended where a number has gone over to another row", async () => {
    const client = await opened(
      "Rnd 1: 6 sc in mr (6)\nRnd 2: inc x6 (12)\nRnd 3: 12 sc (12)\nEyes go on Rnd 3.",
    );
    await client.replace(
      URI,
      "Rnd 2: inc x6 (12)\nRnd 3",
      "Rnd 2: inc x6 (12)\nRnd 3: sc around (12)\nRnd 4",
    );
    const [entry] = await wake(client);
    expect(entry).toMatchObject({ sort: "placement", mend: "Write 4" });
    const range = { start: { line: 4, character: 15 }, end: { line: 4, character: 16 } };
    expect(await asked(client, "mendWake", { key: entry?.key })).toEqual({
      changes: { [URI]: [{ range, newText: "4" }] },
    });
    expect(await asked(client, "mendWake", { key: "of another change" })).toBeNull();
  });

  test("is none of a pattern that is not open", async () => {
    const client = await opened();
    await client.close(URI);
    expect(await wake(client)).toEqual([]);
    expect(await asked(client, "mendWake", { key: "any" })).toBeNull();
    expect(await asked(client, "acceptWake", { keys: ["any"] })).toBeNull();
  });
});
