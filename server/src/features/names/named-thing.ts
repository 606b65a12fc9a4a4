import type { Span, TextEdit } from "../../text/span";
import type { Place } from "../hover/place";

/** Something that a pattern names, and every place where it does. */
export interface NamedThing {
  /** Where it was pointed at. */
  readonly span: Span;
  /** As it is called there. */
  readonly name: string;
  /** Where the pattern says what it is. */
  readonly definitions: readonly Span[];
  /** Everywhere else. */
  readonly uses: readonly Span[];
  /** Null where it can have another name; else why not, in a maker's words. */
  readonly fixed: string | null;
  renamed(to: string): readonly TextEdit[] | NotRenamed;
}

/** Why a name is not taken. */
export interface NotRenamed {
  readonly why: string;
}

/** One sort of things that have names; null where a place names none. */
export interface NameSource {
  at(place: Place): NamedThing | null;
}

export function isNotRenamed(one: readonly TextEdit[] | NotRenamed): one is NotRenamed {
  return "why" in one;
}

export function holds({ start, end }: Span, offset: number): boolean {
  return start <= offset && offset <= end;
}
