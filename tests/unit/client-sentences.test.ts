import { readFileSync } from "node:fs";
import { beforeEach, expect, test, vi } from "vitest";
import type { Uri } from "vscode";
import { sentencesOf } from "../../client/src/sentences";

/* What the client brings for a server that reads no files. No published source. */

const read = vi.hoisted(() => [] as string[]);

vi.mock("vscode", () => ({
  Uri: { joinPath: (_: unknown, path: string) => ({ path }) },
  workspace: {
    fs: {
      readFile: async ({ path }: { path: string }) => {
        read.push(path);
        if (path !== "dist/l10n/de.json") throw new Error("no such file");
        return readFileSync(new URL("../../server/l10n/de.json", import.meta.url));
      },
    },
  },
}));

beforeEach(() => read.splice(0));

const extension = {} as Uri;

test.each(["de", "de-AT", "DE"])("sentences for an editor in %s", async (locale) => {
  expect(await sentencesOf(locale, extension)).toMatchObject({ stitches: "Maschen" });
});

test.each(["en", "en-GB"])("nothing is read for an editor in %s", async (locale) => {
  expect(await sentencesOf(locale, extension)).toBeUndefined();
  expect(read).toEqual([]);
});

test("nothing for an editor in a language that is not there", async () => {
  expect(await sentencesOf("fr", extension)).toBeUndefined();
  expect(read).toEqual(["dist/l10n/fr.json"]);
});
