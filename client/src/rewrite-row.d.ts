import type { BaseLanguageClient } from "vscode-languageclient";
/** Asks how many stitches the row at the caret is to make, tells while it is typed what fits, and rewrites the row. */
export declare function rewriteRow(client: BaseLanguageClient): Promise<void>;
