import type { Refusal } from "../../reshape/row-trial";
import { say } from "../../text/say";

const ofAll = /^(?:[x×*]\s*\d+(?:[.,]\d+)?|\d+(?:[.,]\d+)?\s*(?:[x×]|%))$/i;
const list = /^(\D*?)(\d+(?:\.\d+)?(?:\s*[([/,:;]\s*\d+(?:\.\d+)?)+)\s*[)\]]?(\D*)$/;

/**
 * What is typed for a pattern of several sizes, told for each of them: `64 (68, 72)` has a number for each, `x1.1` and
 * `110 %` are for all, `M 68` is for one, and the others stay as they are (null).
 */
export function typedForSizes(typed: string, names: readonly string[]): (string | null)[] | Refusal {
  const text = typed.trim();
  if (text === "" || ofAll.test(text)) return names.map(() => text);
  const [, before = "", numbers = "", behind = ""] = list.exec(text) ?? [];
  const each = numbers.match(/\d+(?:\.\d+)?/g) ?? [];
  if (each.length === names.length) return each.map((n) => `${before}${n} ${behind}`.trim());
  const own = names.findIndex((name) => restBehind(text, name) !== null);
  if (each.length === 0 && own >= 0)
    return names.map((name, i) => (i === own ? restBehind(text, name) : null));
  return { why: say`There are ${names.length} sizes, ${names.join(", ")}: type ${waysToType(names)}.` };
}

/** In a maker's words, with examples. */
export function waysToType(names: readonly string[]): string {
  const numbers = names.map((_, i) => 60 + 4 * i);
  const [first, ...others] = numbers;
  return say`a number for each, as in ${first} (${others.join(", ")}), or for one, as in ${names[1]} ${others[0]}, or x1.1 for all`;
}

/** What stands behind the name of a size that a text begins with. */
function restBehind(text: string, name: string): string | null {
  const rest = text.slice(name.length);
  const isNamed = text.toLowerCase().startsWith(name.toLowerCase()) && /^\s*[:=]|^\s/.test(rest);
  return isNamed ? rest.replace(/^\s*[:=]?\s*/, "") : null;
}
