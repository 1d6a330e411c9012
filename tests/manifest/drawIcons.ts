/** Draws the add-in's icons from the SVG marks beside them: `npx tsx tests/manifest/drawIcons.ts`. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { findChromium } from "../browser/chromium.ts";

const folder = new URL("../../manifest/icons/", import.meta.url);
const { env, ...place } = await findChromium();
const browser = await chromium.launch({ ...place, env: { ...process.env, ...env }, args: ["--no-sandbox"] });
try {
  for (const size of [16, 32, 64, 80]) {
    const svg = readFileSync(new URL(size === 16 ? "small.svg" : "mark.svg", folder), "utf8");
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    await page.setContent(
      `<style>html,body{margin:0;background:transparent}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`,
    );
    await page.screenshot({ path: fileURLToPath(new URL(`icon-${size}.png`, folder)), omitBackground: true });
    await page.close();
  }
} finally {
  await browser.close();
}
