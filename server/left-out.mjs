// What the bundles leave out, in kilobytes gzipped: it is never reached in them, and over a line every one counts.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** The part of Ohm that matches grammars compiled before, without the one that compiles them (6). */
const matchingOnly = { "ohm-js": fileURLToPath(new URL("ohm-matching.mjs", import.meta.url)) };

/** The pages of the rules: the manifest, the README and the tests are made of them, before anything is bundled (8). */
const rulePages = {
  name: "rule pages",
  setup: ({ onLoad }) =>
    onLoad({ filter: /[\\/]server[\\/]src[\\/]rules[\\/][a-z-]+\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(/documentation: `(?:[^`\\]|\\.)*`/, 'documentation: ""'),
      loader: "ts",
    })),
};

const notOffered =
  "declaration|implementation|typeDefinition|notebook|callHierarchy|typeHierarchy|moniker|linkedEditingRange|inlineValue|showDocument|textDocumentContent|fileOperations";

/** What the protocol knows and this server does not offer: each leaves what it is given as it is (4). */
const featuresNotOffered = {
  name: "features not offered",
  setup: ({ onLoad }) => {
    onLoad(
      { filter: new RegExp(`vscode-languageserver[\\\\/]lib[\\\\/]common[\\\\/](?:${notOffered})\\.js$`) },
      () => ({
        contents: "module.exports = new Proxy({}, { get: () => (given) => given });",
      }),
    );
    onLoad({ filter: new RegExp(`common[\\\\/]protocol\\.(?:${notOffered})\\.js$`) }, () => ({
      contents: "",
    }));
  },
};

/** Where a fact of the trade is from: read with the tables, and by the tests (3). */
const sourcesOfFacts = {
  name: "sources of facts",
  setup: ({ onLoad }) =>
    onLoad({ filter: /[\\/]server[\\/]src[\\/]trade[\\/][a-z-]+\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(/\bsource: (?:"(?:[^"\\]|\\.)*"|\w+)/g, 'source: ""'),
      loader: "ts",
    })),
};

/** What settings do, in words: the manifest and the README are made of them. */
const textsOfSettings = {
  name: "texts of settings",
  setup: ({ onLoad }) =>
    onLoad({ filter: /[\\/]workspace[\\/]settings-table\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(
        /^ {4}text:\s+(?:"(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*'),$/gm,
        '    text: "",',
      ),
      loader: "ts",
    })),
};

/** What makes and tests values of the protocol: they are written as they are here, and only its kinds are named (8). */
const makersOfValues = {
  name: "makers of values",
  setup: ({ onLoad }) =>
    onLoad({ filter: /vscode-languageserver-types[\\/]lib[\\/]esm[\\/]main\.js$/ }, ({ path }) => ({
      contents: [...readFileSync(path, "utf8").matchAll(namespaces)]
        .filter(([all, name]) => new RegExp(`^ +${name}\\.\\w+ = ['0-9-]`, "m").test(all))
        .map(([all]) => all)
        .join("\n"),
    })),
};

/** What the protocol can test, register and name, and nobody here does (1). */
const testsOfRegistrations = {
  name: "tests of registrations",
  setup: ({ onLoad }) =>
    onLoad({ filter: /vscode-languageserver-protocol[\\/]lib[\\/]common[\\/]protocol\.js$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(registered, ""),
    })),
};

const registered =
  /^var ((?:Text|Notebook)(?:Cell(?:Text)?)?Document(?:Filter|RegistrationOptions)|DocumentSelector|(?:StaticRegistration|WorkDoneProgress)Options|(?:Relative|Glob)Pattern|InitializeErrorCodes|TextDocumentSaveReason|ResourceOperationKind|FailureHandlingKind|RegularExpressionEngineKind|WatchKind|(?:Completion|SignatureHelp)TriggerKind|PrepareSupportDefaultBehavior);\n\(function \(\1\) \{[\s\S]*?^\}\)\(.*\);$/gm;

const namespaces = /^export var (\w+);\n(?:\/\*\*[^/]*\*\/\n)?\(function \(\1\) \{[\s\S]*?^\}\)\(.*\);$/gm;

/** Looking through a grammar for faults, following how it matches and telling where it does not: nobody asks (3). */
const looksAtGrammar = {
  name: "looks at the grammar",
  setup: ({ onLoad }) => {
    onLoad(
      {
        filter:
          /[\\/]ohm-js[\\/]src[\\/]pexprs-(?:outputRecipe|assert\w+|isNullable|toArgumentNameList|toDisplayString|toFailure)\.js$/,
      },
      ({ path }) => ({
        contents: `import { PExpr } from "./pexprs-main.js"; PExpr.prototype.${/-(\w+)\.js$/.exec(path)[1]} = () => {};`,
      }),
    );
    // Which characters of a grammar its parts came from.
    onLoad(
      { filter: /ohm-js[\\/]dist[\\/](?:built-in-rules|operations-and-attributes)\.js$/ },
      ({ path }) => ({
        contents: `const z = {}; ${readFileSync(path, "utf8").replace(/\{"source(?:Interval)?":(?:\[\d+,\d+\]|"(?:[^"\\]|\\.)*")\}/g, "z")}`,
      }),
    );
    onLoad({ filter: /[\\/]ohm-js[\\/]src[\\/]Trace\.js$/ }, () => ({ contents: "export class Trace {}" }));
  },
};

/** Patterns of file names: the client's library asks for them where a server watches renamed files, and ours does not (11). */
const fileNamePatterns = {
  name: "file name patterns",
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^minimatch$/ }, () => ({ path: "minimatch", namespace: "left out" }));
    onLoad({ filter: /.*/, namespace: "left out" }, () => ({
      contents: 'exports.minimatch = () => { throw new Error("Names of files are not matched here."); };',
    }));
  },
};

/** Reading from streams and writing to them, and what else a worker that is sent whole messages never asks for (4). */
const streams = {
  name: "streams",
  setup: ({ onLoad }) => {
    const common = String.raw`vscode-jsonrpc[\\/]lib[\\/]common[\\/]`;
    onLoad({ filter: new RegExp(`${common}message(?:Reader|Writer)\\.js$`) }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(/^class (\w+Stream\w+) [\s\S]*?^\}/m, "class $1 {}"),
    }));
    onLoad({ filter: new RegExp(`${common}messageBuffer\\.js$`) }, () => ({
      contents: "exports.AbstractMessageBuffer = class {};",
    }));
    onLoad({ filter: new RegExp(`${common}sharedArrayCancellation\\.js$`) }, () => ({ contents: "" }));
    onLoad({ filter: new RegExp(`${common}linkedMap\\.js$`) }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(/^class LRUCache [\s\S]*?^\}/m, "class LRUCache {}"),
    }));
    onLoad({ filter: /vscode-languageserver[\\/]lib[\\/]common[\\/]progress\.js$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(
        /^class (WorkDoneProgressServerReporterImpl) [\s\S]*?^\}/m,
        "class $1 {}",
      ),
    }));
  },
};

export const leftOutOfServer = {
  alias: matchingOnly,
  plugins: [
    rulePages,
    sourcesOfFacts,
    textsOfSettings,
    featuresNotOffered,
    makersOfValues,
    testsOfRegistrations,
    looksAtGrammar,
  ],
};
export const leftOutOfWebServer = { ...leftOutOfServer, plugins: [...leftOutOfServer.plugins, streams] };
export const leftOutOfWebClient = { plugins: [fileNamePatterns, streams] };
