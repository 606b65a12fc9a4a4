import type {
  ColorInformation,
  ColorPresentation,
  ColorPresentationParams,
  DocumentColorParams,
} from "vscode-languageserver";
import { yarnColours } from "../features/yarn-colours";
import type { Server } from "./context";
import { answering } from "./handler";
import { rangeOf, spanOf } from "./positions";

/** Shows yarns in their colours. Another colour is written by its name: nothing is changed by picking one. */
export function answerYarnColours(server: Server): void {
  const { connection } = server;
  connection.onDocumentColor(
    answering<DocumentColorParams, ColorInformation[]>(server, {
      name: "Showing the colours of yarns",
      work: ({ snapshot }) =>
        yarnColours(snapshot.worked).map(({ span, value: [red, green, blue] }) => ({
          range: rangeOf(span, snapshot.lines),
          color: { red: red / 255, green: green / 255, blue: blue / 255, alpha: 1 },
        })),
      empty: () => [],
    }),
  );
  connection.onColorPresentation(
    answering<ColorPresentationParams, ColorPresentation[]>(server, {
      name: "Naming the colour of a yarn",
      work: ({ params, snapshot }) => {
        const { start, end } = spanOf(params.range, snapshot.lines);
        return [{ label: snapshot.text.slice(start, end) }];
      },
      empty: () => [],
    }),
  );
}
