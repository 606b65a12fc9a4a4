import type { CheckReport } from "./report-shape";

/** 0: nothing at error severity; 1: at least one; 2: something could not be read or written. */
export function exitStatus({ files, unreadable }: CheckReport): number {
  if (unreadable.length > 0) return 2;
  const hasError = files.some(({ findings }) => findings.some(({ severity }) => severity === "error"));
  return hasError ? 1 : 0;
}
