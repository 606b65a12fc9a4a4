import type { BuildOptions } from "esbuild";

type LeftOut = Pick<BuildOptions, "alias" | "plugins">;

export const leftOutOfServer: LeftOut;
export const leftOutOfWebClient: LeftOut;
