import { expect, test } from "vitest";
import { Checker } from "../../server/src/workspace/checker";
import { type Client, inProcess, PULL, PUSH, until } from "./client";

const URI = "file:///rope-coaster.crochet";
const PATTERN = `Rnd 1: 6 sc in mr (6)
Rnd 2: inc x6 (12)
Rnd 3: (sc, inc) x6 (18)
Rnd 4: (2 sc, inc) x6 (24)
`;

/** Whether the pattern's advice is among its queries: what may have been meant. */
const asks = (messages: readonly string[]) => messages.filter((message) => message.includes("Did you mean"));

async function opened(capabilities: typeof PULL): Promise<Client> {
  const client = inProcess(() => new Checker());
  await client.initialize(capabilities);
  await client.open(URI, PATTERN);
  return client;
}

async function messagesOf(client: Client): Promise<string[]> {
  return (await client.pullItems(URI)).map(({ message }) => `${message}`);
}

test("while someone types a query says what is wrong, and asks what was meant once they pause", async () => {
  const client = await opened(PULL);
  await client.replace(URI, "inc) x6 (18)", "inc) x5 (18)");
  const [typing, ...others] = await messagesOf(client);
  expect(others).toEqual([]);
  expect(typing).toMatch(/^Rnd 3 needs 10 stitches; Rnd 2 has 12: 2 left over\.$/);
  await until(() => (client.refreshes > 0 ? true : undefined));
  expect(await messagesOf(client)).toEqual([`${typing} Did you mean x6?`]);
});

test("what a query asked stays while other rows are typed, and is asked anew where its own row is", async () => {
  const client = await opened(PULL);
  await client.replace(URI, "inc) x6 (18)", "inc) x5 (18)");
  await client.pullItems(URI);
  await until(() => (client.refreshes > 0 ? true : undefined));
  await client.pullItems(URI);
  await client.replace(URI, "Rnd 1: 6 sc", "Rnd 1: 6  sc");
  expect(asks(await messagesOf(client))).toHaveLength(1);
  await client.replace(URI, "(sc, inc)", "(sc,  inc)");
  expect(asks(await messagesOf(client))).toEqual([]);
});

test("a client that cannot be told to ask again is told everything at once", async () => {
  const client = await opened({ textDocument: { diagnostic: {} } });
  await client.replace(URI, "inc) x6 (18)", "inc) x5 (18)");
  expect(asks(await messagesOf(client))).toHaveLength(1);
});

test("a client that does not ask is sent the rest when the typing pauses", async () => {
  const client = await opened(PUSH);
  await client.publishedAfter(0);
  await client.replace(URI, "inc) x6 (18)", "inc) x5 (18)");
  const sent = async (count: number) =>
    (await client.publishedAfter(count)).diagnostics.map(({ message }) => `${message}`);
  expect(asks(await sent(1))).toEqual([]);
  expect(asks(await sent(2))).toHaveLength(1);
});
