import { readFileSync } from "node:fs";
import { Session } from "node:inspector/promises";

export interface Hot {
  readonly name: string;
  readonly file: string;
  /** Share of all samples whose innermost call is this function. */
  readonly self: number;
}

/** The functions in which a piece of work spends its time, the hottest first. */
export async function hottest(work: () => unknown, many: number): Promise<Hot[]> {
  const session = new Session();
  session.connect();
  await session.post("Profiler.enable");
  await session.post("Profiler.setSamplingInterval", { interval: 200 });
  await session.post("Profiler.start");
  work();
  const { profile } = await session.post("Profiler.stop");
  session.disconnect();
  const source = sourceNames();
  const self = new Map<string, number>();
  let all = 0;
  for (const { hitCount = 0, callFrame } of profile.nodes) {
    const key = `${callFrame.functionName || "(anonymous)"}\t${source(callFrame.url, callFrame.lineNumber)}`;
    self.set(key, (self.get(key) ?? 0) + hitCount);
    all += hitCount;
  }
  const sorted = [...self].sort((a, b) => b[1] - a[1]).slice(0, many);
  return sorted.map(([key, hits]) => {
    const [name = "", file = ""] = key.split("\t");
    return { name, file, self: hits / all };
  });
}

/** The bundler heads each module with its path in a comment: the last one above a line names its file. */
function sourceNames(): (url: string, line: number) => string {
  const lines = readFileSync(process.argv[1] ?? "", "utf8").split("\n");
  const bundled = `${process.argv[1]}`;
  return (url, line) => {
    if (!url.endsWith(bundled)) return url;
    for (let i = line; i >= 0; i--) {
      const path = /^\/\/ (.+\.[mc]?[jt]s)$/.exec(lines[i] ?? "")?.[1];
      if (path) return `${path.replace(/^.*node_modules\//, "")}:${line - i}`;
    }
    return "";
  };
}
