import { expect, test } from "vitest";
import { ClosedPatterns } from "../../server/src/lsp/closed-patterns";

/* Folders that cannot be listed. No published source. */

/** Two folders, of which those in `failing` cannot be listed just then. */
function twoFolders(failing: Set<string>) {
  const logged: string[] = [];
  const list = async (folder: string) => {
    if (failing.has(folder)) throw new Error("invented fault");
    return [`${folder}/hat.crochet`];
  };
  const read = () => Promise.reject(new Error("Nothing was to be read."));
  const closed = new ClosedPatterns({ list, read }, ["/stall", "/loft"], (message) => logged.push(message));
  const uris = async () => (await closed.all()).map(({ uri }) => uri);
  return { closed, uris, logged };
}

const both = ["/stall/hat.crochet", "/loft/hat.crochet"];

test("a folder that cannot be listed takes no other with it, and is tried again", async () => {
  const failing = new Set(["/stall"]);
  const { uris, logged } = twoFolders(failing);
  expect(await uris()).toEqual(["/loft/hat.crochet"]);
  expect(logged).toEqual([expect.stringContaining("/stall failed: Error: invented fault")]);
  failing.clear();
  expect(await uris()).toEqual(both);
});

test("what was known of a folder stays when it cannot be listed any more", async () => {
  const failing = new Set<string>();
  const { closed, uris } = twoFolders(failing);
  expect(await uris()).toEqual(both);
  failing.add("/stall");
  closed.listAnew();
  expect(await uris()).toEqual(both);
});

test("two who ask at once while a folder fails are both answered", async () => {
  const { uris } = twoFolders(new Set(["/stall"]));
  expect(await Promise.all([uris(), uris()])).toEqual([["/loft/hat.crochet"], ["/loft/hat.crochet"]]);
});
