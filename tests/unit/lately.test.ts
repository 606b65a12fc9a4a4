import { expect, test } from "vitest";
import { Lately } from "../../server/src/text/lately";

test("what is asked for stays, and never more than twice as many as are to be kept", () => {
  const kept = new Lately<number>(10);
  for (let n = 0; n < 1000; n++) {
    kept.set(`${n}`, n);
    expect(kept.get("0")).toBe(0);
    expect([...kept.entries].length).toBeLessThanOrEqual(20);
  }
  expect(kept.get("999")).toBe(999);
  expect(kept.get("500")).toBeUndefined();
});

test("null is a value, and nothing is kept of a key that was not set", () => {
  const kept = new Lately<number | null>(2);
  kept.set("a", null);
  kept.set("b", 1);
  kept.set("c", 2);
  expect(kept.get("a")).toBeNull();
  expect(kept.get("d")).toBeUndefined();
});

test("one that goes on by itself leaves the other as it was", () => {
  const kept = new Lately<number>(2);
  kept.set("a", 1);
  const other = kept.apart();
  other.set("b", 2);
  for (const key of "cdefg") other.set(key, 3);
  expect([...kept.entries]).toEqual([["a", 1]]);
  expect(kept.get("b")).toBeUndefined();
});

test("what is all in use at once is not let go", () => {
  const kept = new Lately<number>(2);
  kept.makeRoomFor(50);
  kept.makeRoomFor(3);
  for (let n = 0; n < 50; n++) kept.set(`${n}`, n);
  for (let n = 0; n < 50; n++) expect(kept.get(`${n}`)).toBe(n);
});
