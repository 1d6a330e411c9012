import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { PublishedCase } from "../published/index.ts";
import { root } from "./build.ts";

const folder = join(root, "src", "published", "cases");

/** Every published check, file by file. */
export function publishedCases(): readonly PublishedCase[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith(".json"))
    .sort()
    .flatMap((name) => JSON.parse(readFileSync(join(folder, name), "utf8")) as readonly PublishedCase[]);
}
