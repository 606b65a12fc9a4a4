import type {
  CodeAction,
  CompletionItem,
  CompletionList,
  Position,
  Range,
  SemanticTokens,
  SemanticTokensDelta,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver-protocol/node";
import { Broken } from "./broken";
import { isRecord, type Method } from "./shapes";

/** Where and with what a request is made. */
export interface Scene {
  readonly uri: string;
  readonly here: Position;
  readonly range: Range;
  /** Which of the things offered is taken, as a fraction of all. */
  readonly pick: number;
  /** Sends a request; the answer has the form its method has, and its positions are inside the text. */
  send(method: Method, params: object): Promise<unknown>;
  /** Makes edits in a copy of the text; they are made in the text itself where the client takes what is offered. */
  tryEdits(method: Method, edits: readonly TextEdit[]): void;
  tryWorkspaceEdit(method: Method, edit: WorkspaceEdit): void;
}

type Ask = (scene: Scene) => Promise<void>;

const about = ({ uri }: Scene) => ({ textDocument: { uri } });
const at = (scene: Scene) => ({ ...about(scene), position: scene.here });
const within = (scene: Scene) => ({ ...about(scene), range: scene.range });
const options = { tabSize: 2, insertSpaces: true };

function asking(method: Method, params: (scene: Scene) => object): Ask {
  return async (scene) => {
    await scene.send(method, params(scene));
  };
}

function editing(method: Method, params: (scene: Scene) => object): Ask {
  return async (scene) => {
    const edits = (await scene.send(method, params(scene))) as TextEdit[] | null;
    if (edits) scene.tryEdits(method, edits);
  };
}

/** Answers that have a change for the text among other things, or are one. */
function offering(method: Method, params: (scene: Scene) => object): Ask {
  return async (scene) => {
    const answer = await scene.send(method, params(scene));
    if (!isRecord(answer)) return;
    const edit = "edit" in answer ? answer.edit : "fits" in answer ? null : answer;
    if (edit) scene.tryWorkspaceEdit(method, edit as WorkspaceEdit);
  };
}

function picked<T>(all: readonly T[], { pick }: Scene): T | undefined {
  return all[Math.min(Math.floor(pick * all.length), all.length - 1)];
}

const complete: Ask = async (scene) => {
  const answer = (await scene.send("textDocument/completion", at(scene))) as CompletionList;
  const item = picked(answer.items, scene);
  if (!item) return;
  const resolved = (await scene.send("completionItem/resolve", item)) as CompletionItem;
  const edits = [resolved.textEdit, ...(resolved.additionalTextEdits ?? [])] as (TextEdit | undefined)[];
  scene.tryEdits(
    "completionItem/resolve",
    edits.flatMap((edit) => edit ?? []),
  );
};

function act(context: object): Ask {
  return async (scene) => {
    const params = { ...within(scene), context: { diagnostics: [], ...context } };
    const action = picked((await scene.send("textDocument/codeAction", params)) as CodeAction[], scene);
    if (!action) return;
    const { edit } = (await scene.send("codeAction/resolve", action)) as CodeAction;
    if (edit) scene.tryWorkspaceEdit("codeAction/resolve", edit);
  };
}

const mendWake: Ask = async (scene) => {
  const entries = (await scene.send("loopledger/wake", about(scene))) as { key: string }[];
  const entry = picked(entries, scene);
  if (entry) await offering("loopledger/mendWake", () => ({ ...about(scene), key: entry.key }))(scene);
};

const acceptWake: Ask = async (scene) => {
  const entries = (await scene.send("loopledger/wake", about(scene))) as { key: string }[];
  const keys = entries.slice(0, 1 + Math.floor(scene.pick * entries.length)).map(({ key }) => key);
  await scene.send("loopledger/acceptWake", { ...about(scene), keys });
};

/** What has changed in the colours, put into the colours there were, are the colours there are. */
const colour: Ask = async (scene) => {
  const full = "textDocument/semanticTokens/full";
  const before = (await scene.send(full, about(scene))) as SemanticTokens;
  const params = { ...about(scene), previousResultId: before.resultId };
  const delta = (await scene.send("textDocument/semanticTokens/full/delta", params)) as
    | SemanticTokens
    | SemanticTokensDelta;
  const now = (await scene.send(full, about(scene))) as SemanticTokens;
  const patched = "edits" in delta ? withTokenEdits(before.data, delta) : delta.data;
  if (`${patched}` !== `${now.data}`)
    throw new Broken("the changed colours differ", `${patched} for ${now.data}`);
};

function withTokenEdits(data: readonly number[], { edits }: SemanticTokensDelta): number[] {
  const lastFirst = [...edits].sort((a, b) => b.start - a.start);
  return lastFirst.reduce(
    (now, edit) => now.toSpliced(edit.start, edit.deleteCount, ...(edit.data ?? [])),
    [...data],
  );
}

/** The sheet comes back with one of its numbers changed. */
const grade: Ask = async (scene) => {
  const sheet = (await scene.send("loopledger/gradingSheet", about(scene))) as string | null;
  if (sheet === null) return;
  const number = picked([...sheet.matchAll(/\d+/g)], scene);
  const at = number?.index ?? 0;
  const changed = `${sheet.slice(0, at)}1${sheet.slice(at)}`;
  await offering("loopledger/applyGradingSheet", () => ({ ...about(scene), sheet: changed }))(scene);
};

const black = { red: 0, green: 0, blue: 0, alpha: 1 };
const names = ["Shell St", "B", "Crown", "12", "", "⁂\n"] as const;
const counts = ["24", "12 more", "x2", "", "-1", "1000000000000", "48 (54, 60)", "20 cm"] as const;

function oneOf<T>(list: readonly T[], { pick }: Scene): T {
  return list[Math.min(Math.floor(pick * list.length), list.length - 1)] as T;
}

/** Every request the server answers, as a client makes it. */
export const requests = {
  findings: asking("textDocument/diagnostic", about),
  "findings of the folder": asking("workspace/diagnostic", () => ({ previousResultIds: [] })),
  hover: asking("textDocument/hover", at),
  completion: complete,
  "repeat that is written": asking("textDocument/signatureHelp", at),
  "row to come": async (scene) => {
    const method = "textDocument/inlineCompletion";
    const params = { ...at(scene), context: { triggerKind: 1 } };
    const items = (await scene.send(method, params)) as { insertText: string; range: Range }[];
    const item = picked(items, scene);
    if (item) scene.tryEdits(method, [{ range: item.range, newText: item.insertText }]);
  },
  definition: asking("textDocument/definition", at),
  references: asking("textDocument/references", (scene) => ({
    ...at(scene),
    context: { includeDeclaration: scene.pick < 0.5 },
  })),
  highlights: asking("textDocument/documentHighlight", at),
  "what can be renamed": asking("textDocument/prepareRename", at),
  rename: offering("textDocument/rename", (scene) => ({ ...at(scene), newName: oneOf(names, scene) })),
  outline: asking("textDocument/documentSymbol", about),
  "parts by name": asking("workspace/symbol", (scene) => ({ query: oneOf(["", "r", "hat"], scene) })),
  folds: asking("textDocument/foldingRange", about),
  selections: asking("textDocument/selectionRange", (scene) => ({
    ...about(scene),
    positions: [scene.here, scene.range.start],
  })),
  links: asking("textDocument/documentLink", about),
  "yarn colours": asking("textDocument/documentColor", about),
  "other yarn colours": asking("textDocument/colorPresentation", (scene) => ({
    ...within(scene),
    color: black,
  })),
  colours: colour,
  "colours of a stretch": asking("textDocument/semanticTokens/range", within),
  lenses: asking("textDocument/codeLens", about),
  hints: asking("textDocument/inlayHint", within),
  formatting: editing("textDocument/formatting", (scene) => ({ ...about(scene), options })),
  "formatting of a stretch": editing("textDocument/rangeFormatting", (scene) => ({
    ...within(scene),
    options,
  })),
  "formatting as one types": editing("textDocument/onTypeFormatting", (scene) => ({
    ...at(scene),
    ch: "\n",
    options,
  })),
  "changes at the caret": act({}),
  "changes asked for": act({ triggerKind: 1 }),
  "changes of the whole pattern": act({ only: ["source"] }),
  "status of the row": asking("loopledger/rowStatus", at),
  "proof of the row": asking("loopledger/rowProof", at),
  "the row in words": asking("loopledger/rowInWords", at),
  "another count": offering("loopledger/rewriteRow", (scene) => ({
    ...at(scene),
    typed: oneOf([null, ...counts], scene),
  })),
  "another size": offering("loopledger/resizePiece", (scene) => ({
    ...at(scene),
    typed: oneOf([null, ...counts], scene),
  })),
  "grading sheet": grade,
  "one size more": offering("loopledger/addSize", (scene) => ({
    ...about(scene),
    typed: oneOf(["XXL", "XXL +4", "12 (14)", "", "2X -1", "S"], scene),
  })),
  materials: asking("loopledger/materials", about),
  "page before publishing": asking("loopledger/publishingPage", about),
  queries: asking("loopledger/queries", about),
  "a draft in another language": asking("loopledger/languageDraft", (scene) => ({
    ...about(scene),
    language: oneOf(["de", "fr", "fi"], scene),
  })),
  "the terms of what was pasted": asking("loopledger/pastedTerms", within),
  "text for a word processor": asking("loopledger/richText", about),
  "other terms": async (scene) => {
    const method = "loopledger/turnTerms";
    const to = scene.pick < 0.5 ? "UK" : "US";
    const { edits } = (await scene.send(method, { ...about(scene), to })) as { edits: TextEdit[] | null };
    if (edits) scene.tryEdits(method, edits);
  },
  "the wake": mendWake,
  "the wake, left as it is": acceptWake,
} satisfies Record<string, Ask>;

export type RequestName = keyof typeof requests;
export const requestNames = Object.keys(requests) as RequestName[];
