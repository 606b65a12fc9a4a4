// `npm run faults`: which seeded faults are found; `npm run faults -- fixes`: whether what is offered mends them.
await (process.argv[2] === "fixes" ? import("./fixes") : import("./found"));

export {};
