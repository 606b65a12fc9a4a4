import { readFileSync } from "node:fs";
import { Session } from "node:inspector/promises";

export interface Hot {
  readonly name: string;
  readonly file: string;
  /** Share of all samples whose innermost call is this function. */
  readonly self: number;
}

export interface Profile {
  /** The functions in which the work spends its time, the hottest first. */
  readonly functions: readonly Hot[];
  /** The same by file. */
  readonly files: readonly Hot[];
}

/** Where a piece of work spends its time. */
export async function profileOf(work: () => unknown): Promise<Profile> {
  const session = new Session();
  session.connect();
  await session.post("Profiler.enable");
  await session.post("Profiler.setSamplingInterval", { interval: 200 });
  await session.post("Profiler.start");
  work();
  const { profile } = await session.post("Profiler.stop");
  session.disconnect();
  const source = sourceNames();
  const hits = profile.nodes.map(({ hitCount = 0, callFrame }) => ({
    name: callFrame.functionName || "(anonymous)",
    file: source(callFrame.url, callFrame.lineNumber),
    hits: hitCount,
  }));
  return {
    functions: added(hits),
    files: added(hits.map((hit) => ({ ...hit, name: "", file: hit.file.replace(/:\d+$/, "") || hit.name }))),
  };
}

interface Hit {
  readonly name: string;
  readonly file: string;
  readonly hits: number;
}

function added(hits: readonly Hit[]): Hot[] {
  const sums = new Map<string, Hit>();
  for (const hit of hits) {
    const key = `${hit.name}\t${hit.file}`;
    sums.set(key, { ...hit, hits: hit.hits + (sums.get(key)?.hits ?? 0) });
  }
  const all = hits.reduce((sum, hit) => sum + hit.hits, 0);
  const sorted = [...sums.values()].sort((a, b) => b.hits - a.hits);
  return sorted.map((sum) => ({ name: sum.name, file: sum.file, self: sum.hits / all }));
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
