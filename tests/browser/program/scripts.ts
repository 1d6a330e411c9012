import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";
import type { Page } from "playwright-core";
import { gridCalculator } from "../../hosts/excelFake/gridCalculator.ts";
import { toText, workbookOf } from "./wire.ts";

export const hostScripts = "https://appsforoffice.microsoft.com/lib/1/hosted/";

const calculator = gridCalculator();
let bundle: Promise<string> | undefined;

/** The stand-in needs how sheets are named, which stands beside hosts that no page can load: what is not used is left out. */
const onlyWhatIsUsed: Plugin = {
  name: "only what is used",
  setup: (making) => {
    making.onResolve({ filter: /^\.\.?\/.*\.ts$/ }, ({ path, resolveDir }) => ({
      path: join(resolveDir, path),
      sideEffects: false,
    }));
    // The one package the stand-in reads formulas with goes along.
    making.onResolve({ filter: /^@borgar\/fx$/ }, ({ path }) => ({
      path: createRequire(import.meta.url).resolve(path),
      sideEffects: false,
    }));
  },
};

async function standIn(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL("standIn.ts", import.meta.url))],
    bundle: true,
    write: false,
    format: "iife",
    target: "es2022",
    plugins: [onlyWhatIsUsed],
    packages: "external",
    loader: { ".css": "empty" },
    logLevel: "error",
  });
  return outputFiles[0]!.text;
}

/** Answers for the program's script with a stand-in whose workbook the embedded grid computes, outside the page. */
export async function answerAsProgram(page: Page): Promise<void> {
  bundle ??= standIn();
  const body = await bundle;
  await page.exposeFunction("computeWorkbook", async (text: string) => toText(await calculator(workbookOf(text))));
  await page.route(`${hostScripts}**`, (route) => route.fulfill({ contentType: "text/javascript", body }));
}

/** Answers with the script's own published files, unchanged. */
export async function answerWithPublishedScript(page: Page): Promise<void> {
  const folder = dirname(createRequire(import.meta.url).resolve("@microsoft/office-js/dist/office.js"));
  await page.route(`${hostScripts}**`, (route) => {
    const file = join(folder, new URL(route.request().url()).pathname.slice(new URL(hostScripts).pathname.length));
    return existsSync(file)
      ? route.fulfill({
          contentType: "text/javascript",
          headers: { "Access-Control-Allow-Origin": "*" },
          body: readFileSync(file),
        })
      : route.abort();
  });
}
