import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import type { Figure } from "./figure";

/** How the extension starts in a real VS Code; nothing where it was not packaged or there is no editor. */
export function activation(): Figure[] {
  if (!existsSync("loopledger.vsix")) return [];
  const { status, stdout } = spawnSync(process.execPath, ["tests/editor/activation.mjs"], {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "inherit"],
  });
  const told = /^ACTIVATION (.+)$/m.exec(stdout ?? "")?.[1];
  if (status !== 0 || told === undefined) return [];
  const { load, call } = JSON.parse(told) as { load: number; call: number };
  return [
    { what: "activation in VS Code: loading the code", value: load, unit: "ms", goal: 60 },
    { what: "activation in VS Code: the call", value: call, unit: "ms", goal: 30 },
  ];
}
