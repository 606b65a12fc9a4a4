// What the bundles take of Ohm: matching with a grammar that was compiled before, and visiting what matched.
export { makeRecipe } from "../node_modules/ohm-js/src/main-kernel.js";

import "../node_modules/ohm-js/src/semanticsDeferredInit.js";
