import { describe, expect, test } from "vitest";
import { Chunks } from "../../server/src/text/chunks";

const items = Array.from({ length: 500 }, (_, n) => ({ n }));

describe("chunks of a list", () => {
  test("hold all of it, in order", () => {
    const placed = new Chunks<object>().of(items);
    expect(placed.flatMap(({ chunk }) => chunk.items)).toEqual(items);
    for (const { chunk, from } of placed)
      expect(items.slice(from, from + chunk.items.length)).toEqual(chunk.items);
  });

  test("are the same objects as long as nothing in them changes, wherever they stand", () => {
    const chunks = new Chunks<object>();
    const before = new Set(chunks.of(items).map(({ chunk }) => chunk));
    for (const at of [0, 77, 499]) {
      const others = [
        items.with(at, { n: -1 }),
        items.toSpliced(at, 1),
        items.toSpliced(at, 0, { n: -2 }, { n: -3 }),
      ];
      for (const other of others) {
        const placed = chunks.of(other);
        expect(placed.flatMap(({ chunk }) => chunk.items)).toEqual(other);
        expect(placed.filter(({ chunk }) => !before.has(chunk)).length).toBeLessThanOrEqual(3);
      }
    }
  });

  test("stay small, whatever is put in", () => {
    const chunks = new Chunks<object>();
    let list = items;
    for (let n = 0; n < 2000; n++) list = list.with((n * 37) % list.length, { n });
    const sizes = chunks.of(list).map(({ chunk }) => chunk.items.length);
    expect(Math.max(...sizes)).toBeLessThanOrEqual(64);
  });

  test("of an empty list are none", () => {
    expect(new Chunks<object>().of([])).toEqual([]);
  });
});
