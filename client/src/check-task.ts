import {
  type Disposable,
  type ExtensionContext,
  l10n,
  ProcessExecution,
  Task,
  type TaskDefinition,
  tasks,
  type WorkspaceFolder,
  workspace,
} from "vscode";

const type = "loopledger";

interface CheckDefinition extends TaskDefinition {
  /** Patterns, folders, or names with * and ?; the whole folder where none are told. */
  readonly files?: readonly string[];
}

/** A task for each folder that checks all its patterns by the command line, which ends with the list of queries. */
export function offerCheckTask(context: ExtensionContext): Disposable {
  const script = context.asAbsolutePath("dist/loopledger.js");
  return tasks.registerTaskProvider(type, {
    provideTasks: () =>
      (workspace.workspaceFolders ?? [])
        .filter(({ uri }) => uri.scheme === "file")
        .map((folder) => checkTask({ type }, folder, script)),
    resolveTask: ({ definition, scope }) =>
      typeof scope === "object" ? checkTask(definition, scope, script) : undefined,
  });
}

/** What it finds in a folder stands among the problems already, so that it has no matcher of its own. */
function checkTask(definition: CheckDefinition, folder: WorkspaceFolder, script: string): Task {
  const { files = ["."] } = definition;
  // The editor itself runs the script, as Node would: nothing more needs to be installed.
  const execution = new ProcessExecution(process.execPath, [script, "check", ...files], {
    cwd: folder.uri.fsPath,
    env: { ELECTRON_RUN_AS_NODE: "1" },
  });
  return new Task(definition, folder, l10n.t("check all patterns"), "Loopledger", execution, []);
}
