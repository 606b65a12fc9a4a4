// `npm run mutants`: which slips are found; `npm run mutants -- fixes`: whether what is offered mends them.
await (process.argv[2] === "fixes" ? import("./fixes") : import("./found"));

export {};
