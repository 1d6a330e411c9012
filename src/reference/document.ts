import { version } from "../core/index.ts";
import { html, Markup } from "../typeset/index.ts";
import { namesPage, pageOf } from "./places.ts";
import { contentStyle, frameStyle } from "./style.ts";

/** Nothing is loaded and no script runs: the page is whole by itself, from a server or from a folder. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

function whole(title: string, body: Markup): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${new Markup(policy)}">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<style>${new Markup(frameStyle)}</style>
<style id="kr-style">${new Markup(contentStyle)}</style>
</head>
<body>
${body}
</body>
</html>
`.text;
}

/** A page of the reference. The panel shows its `main` with the style of the content. */
export function referenceDocument(title: string, content: Markup): string {
  return whole(
    title,
    html`<header class="kr-head"><nav aria-label="Reference"><strong>Kernbook reference</strong>
<a href="${pageOf()}">By task</a> <a href="${namesPage}">By name</a></nav></header>
<main class="kr-page">
${content}
</main>
<footer class="kr-foot">Kernbook ${version}. Results are for use by a competent engineer; the standard in force and
licensed local practice decide.</footer>`,
  );
}

/** A document to be printed as a whole. */
export function printedDocument(title: string, content: Markup): string {
  return whole(
    title,
    html`<main class="kr-page kr-book">
${content}
</main>`,
  );
}
