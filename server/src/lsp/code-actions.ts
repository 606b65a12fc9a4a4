import {
  type CancellationToken,
  type CodeAction,
  type CodeActionContext,
  type CodeActionParams,
  CodeActionTriggerKind,
  LSPErrorCodes,
  type Range,
  ResponseError,
} from "vscode-languageserver";
import {
  type Action,
  actionsAt,
  actionsOnAll,
  actionsOnRequest,
  type Scene,
} from "../features/actions/all-actions";
import { say } from "../text/say";
import { KIND } from "./capabilities";
import type { Server } from "./context";
import { diagnosticOf, shownFindings } from "./diagnostics";
import { editOf } from "./edits";
import { answering, type Request } from "./handler";
import type { Snapshot } from "./open-document";
import { spanOf } from "./positions";
import type { Settings } from "./settings";

/** Which action of which version an offered one is; its edits are worked out when it is chosen. */
interface Ticket {
  readonly uri: string;
  readonly version: number;
  readonly range: Range;
  readonly scope: "here" | "on-request" | "all";
  /** Its place among the actions of its scope and range. */
  readonly index: number;
  readonly title: string;
}

/** Offers changes, and works out the edits of the one that was chosen. */
export function offerActions(server: Server): void {
  const { connection } = server;
  connection.onCodeAction(
    answering<CodeActionParams, CodeAction[]>(server, {
      name: "Offering changes",
      work: (request) => offered(server, request),
      empty: () => [],
    }),
  );
  const resolve = answering<Chosen, CodeAction>(server, {
    name: "Working out a change",
    work: (request) => resolved(server, request),
    empty: outdated,
    failed: outdated,
  });
  connection.onCodeActionResolve((action: CodeAction, token: CancellationToken) => {
    const ticket = (action.data ?? {}) as Partial<Ticket>;
    return resolve({ textDocument: { uri: ticket.uri ?? "" }, action, ticket }, token);
  });
}

interface Chosen {
  readonly textDocument: { readonly uri: string };
  readonly action: CodeAction;
  /** As the client sent it back. */
  readonly ticket: Partial<Ticket>;
}

async function offered(server: Server, request: Request<CodeActionParams>): Promise<CodeAction[]> {
  const { params, snapshot } = request;
  const settings = await server.settings.of(snapshot.uri);
  const { range, context } = params;
  const scopes = scopesAsked(context);
  return scopes.flatMap((scope) =>
    actionsIn(snapshot, settings, scope, range).flatMap((action, index) => {
      if (!isAsked(action, context.only)) return [];
      const { uri, version } = snapshot;
      const ticket: Ticket = { uri, version, range, scope, index, title: action.title };
      return [actionFor(action, ticket, snapshot, server)];
    }),
  );
}

/**
 * What changes the whole pattern is offered only where it is asked for by its kind; what nothing calls for, where
 * somebody asks for changes at all.
 */
function scopesAsked({ only, triggerKind }: CodeActionContext): readonly Ticket["scope"][] {
  const isAskedFor = (kind: string) => only?.some((one) => one.split(".")[0] === kind) === true;
  const onRequest = triggerKind === CodeActionTriggerKind.Invoked || isAskedFor("refactor");
  return [
    "here",
    ...(onRequest ? (["on-request"] as const) : []),
    ...(isAskedFor("source") ? (["all"] as const) : []),
  ];
}

function isAsked({ kind }: Action, only: readonly string[] | undefined): boolean {
  return !only || only.some((wanted) => `${KIND[kind]}.`.startsWith(`${wanted}.`));
}

function actionsIn(
  snapshot: Snapshot,
  settings: Settings,
  scope: Ticket["scope"],
  range: Range,
): readonly Action[] {
  const { text, report, worked, prover, lines } = snapshot;
  const findings = shownFindings(snapshot, settings);
  const scene: Scene = { text, report, worked, prover, findings, measures: settings.measures };
  if (scope === "all") return actionsOnAll(scene);
  const span = spanOf(range, lines);
  return scope === "here" ? actionsAt(scene, span) : actionsOnRequest(scene, span);
}

/** Findings an action is linked to at most: hundreds mended at once need not all be named. */
const linkedAtMost = 20;

function actionFor(action: Action, ticket: Ticket, snapshot: Snapshot, { client }: Server): CodeAction {
  const { title, kind, mends, preferred } = action;
  const diagnostics = mends.slice(0, linkedAtMost).map((finding) => diagnosticOf(finding, snapshot, client));
  const offer: CodeAction = {
    title,
    kind: KIND[kind],
    ...(diagnostics.length > 0 ? { diagnostics } : {}),
    ...(preferred ? { isPreferred: true } : {}),
  };
  return client.resolvesActions
    ? { ...offer, data: ticket }
    : { ...offer, edit: editOf(action.edits(), snapshot, client) };
}

/** The edits of the action that was chosen, if the text is still the one it was offered for. */
async function resolved(
  server: Server,
  { params: { action, ticket }, document }: Request<Chosen>,
): Promise<CodeAction> {
  const settings = await server.settings.of(document.uri);
  const { snapshot } = document;
  const { version, scope, range, index } = ticket;
  if (snapshot.version !== version || !scope || !range || index === undefined) return outdated();
  const same = actionsIn(snapshot, settings, scope, range)[index];
  if (!same || same.title !== ticket.title) return outdated();
  return { ...action, edit: editOf(same.edits(), snapshot, server.client) };
}

function outdated(): never {
  throw new ResponseError(
    LSPErrorCodes.ContentModified,
    say`The pattern has changed since this was offered. Ask for it again.`,
  );
}
