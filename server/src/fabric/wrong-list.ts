import { say } from "../text/say";

/** A list with another number of entries than the pattern has sizes, as it is typed, and what is to be said of it. */
export interface WrongList {
  readonly list: string;
  readonly says: string;
}

export function wrongList(list: string, numbers: number, sizes: number): WrongList {
  return { list, says: say`"${list}" has ${numbers} numbers, and the pattern has ${sizes} sizes` };
}
