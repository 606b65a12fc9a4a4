import { readArguments } from "./arguments";
import { check } from "./check";
import { writeDraft } from "./draft";
import { exitStatus } from "./exit-status";
import { HELP } from "./help";
import { writeJson } from "./json-report";
import { measure, writeMeasuresJson, writePages } from "./measure";
import type { Output } from "./output";
import type { CreateChecker } from "./pattern-file";
import { writePublishingPage } from "./publish-check";
import type { CheckFiles } from "./side-by-side";
import { writeTerms } from "./terms";
import { writeText } from "./text-report";

/** What the command line needs from the place it runs in. */
export interface CliHost {
  readonly createChecker: CreateChecker;
  /** Checks many files at once, where that can be done. */
  readonly checkFiles?: CheckFiles;
  /** Starts the language server; it ends the process itself. */
  readonly startServer: () => Promise<unknown>;
  readonly input: AsyncIterable<Uint8Array>;
  readonly output: Output;
  readonly version: string;
}

const WRITERS = { text: writeText, json: writeJson };
const MEASURE_WRITERS = { text: writePages, json: writeMeasuresJson };

/** Does what the arguments ask for and gives the exit status. */
export async function run(args: readonly string[], host: CliHost): Promise<number> {
  const { output } = host;
  const task = readArguments(args);
  switch (task.command) {
    case "help":
      output.out(HELP);
      return 0;
    case "version":
      output.out(`${host.version}\n`);
      return 0;
    case "wrong-usage":
      output.err(`${task.message}\nSee loopledger --help.\n`);
      return 2;
    case "lsp":
      await host.startServer();
      return 0;
    case "measure": {
      const report = await measure(task.names, task.options, host);
      MEASURE_WRITERS[task.format](report, output);
      return report.unreadable.length > 0 ? 2 : 0;
    }
    case "terms":
      return writeTerms(task.file, task.to, host);
    case "draft":
      return writeDraft(task.file, task.language, host);
    case "publish-check":
      return writePublishingPage(task.file, host);
    case "check": {
      const report = await check(task.names, { ...host, severities: task.severities });
      WRITERS[task.format](report, output);
      return exitStatus(report);
    }
  }
}
