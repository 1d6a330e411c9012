import type { RequestListener } from "node:http";
import { reasonOf } from "../../core/index.ts";
import { dist } from "../build.ts";
import { pages } from "./pages.ts";
import { sayWhenRebuilt } from "./rebuilt.ts";

/** Sites on which the spreadsheet program shows add-ins on the web. */
const programs =
  "https://*.officeapps.live.com https://*.sharepoint.com https://excel.cloud.microsoft https://onedrive.live.com";

/** The headers of every answer: who may show the pages in a frame, and who may read the files. */
export const headersFor = {
  workbench: { "Content-Security-Policy": "frame-ancestors 'self'" },
  addin: {
    "Content-Security-Policy": `frame-ancestors 'self' ${programs}`,
    "Access-Control-Allow-Origin": "*",
  },
} as const;

/** What a server of the built pages answers. */
export function builtPages(as: keyof typeof headersFor, folder = dist): RequestListener {
  return pages({ folder, headers: headersFor[as], complain: (text) => console.error(text) });
}

/** Opens a server of the built pages, prints how to use it, and says when a new build is served; a failure ends the command. */
export async function serveBuilt(open: () => Promise<string>, failed: string): Promise<void> {
  try {
    console.log(await open());
    sayWhenRebuilt(dist, (text) => console.log(text));
  } catch (error) {
    console.error(`${failed}: ${reasonOf(error)}`);
    process.exitCode = 1;
  }
}
