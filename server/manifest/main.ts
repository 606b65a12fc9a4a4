// `npm run manifest`: writes the settings into package.json, package.nls.json and README.md, from the one table of them.
import { readFileSync, writeFileSync } from "node:fs";
import { madeParts } from "./made-parts";

for (const { file, remade } of madeParts) {
  const text = readFileSync(file, "utf8");
  const made = remade(text);
  if (made !== text) writeFileSync(file, made);
  console.log(made === text ? `${file} is as it should be.` : `${file} is written anew.`);
}
