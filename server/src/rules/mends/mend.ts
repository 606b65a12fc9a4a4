import type { TextEdit } from "../../text/span";

/** A change of the row's own text, or of the starting chain that it is worked along. */
export interface MendEdit extends TextEdit {
  /** Whose instructions the offsets are of. */
  readonly line: "row" | "below";
}

/** What is changed; several rows can be mended at once where each is mended alike. */
export type MendKind =
  | "number"
  | "together"
  | "inc-or-dec"
  | "starting-chain"
  | "first-chain"
  | "leave-rest"
  | "count"
  | "space-length";

/**
 * A small change after which the row is right: it was made, read and worked again on the same
 * places, and then fitted and agreed with its count.
 */
export interface Mend {
  readonly kind: MendKind;
  /** What to do, as a button would say it. */
  readonly title: string;
  /** A whole sentence for the message. */
  readonly question: string;
  /** `8 sc for 4 sc`: where several ways are named in one sentence. */
  readonly exchange: string;
  readonly edits: readonly MendEdit[];
}

/** A count as it is named in a sentence: from its first number on, without the brackets or the full stop around it. */
export function inShort(count: string): string {
  const start = count.search(/(?:[-–]\s*[([]\s*)?\d/);
  const bare = count.slice(Math.max(start, 0)).replace(/[\s.]+$/, "");
  const [opened, closed] = [bare.match(/[([{<]/g), bare.match(/[)\]}>]/g)].map((found) => found?.length ?? 0);
  return (closed ?? 0) > (opened ?? 0) ? bare.replace(/\s*[)\]}>]+$/, "") : bare;
}
