import { say } from "../../text/say";
import type { RowReport } from "../../workspace/report";
import { grouped } from "./sized";

/** `32 hdc, 16 ch-1 sps`: every kind made in one size. */
export function kindsOf({ made }: Pick<RowReport, "made">, size: number): string {
  return Object.entries(made)
    .map(([kind, counts]) => [kind, counts[size] ?? 0] as const)
    .filter(([, n]) => n > 0)
    .map(([kind, n]) => `${n} ${n === 1 ? kind : plural(kind)}`)
    .join(", ");
}

function plural(kind: string): string {
  return kind.endsWith(" sp") ? `${kind}s` : kind;
}

export function sts(n: number): string {
  return n === 1 ? say`1 st` : say`${grouped(n)} sts`;
}
