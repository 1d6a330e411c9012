import { version } from "../../core/index.ts";
import { html, Markup } from "../../typeset/index.ts";

/** Rules for what is printed; they bear on classes of their own alone, since the panel prints the body within its own page. */
const style = `
@page { size: A4; margin: 16mm 15mm 18mm; @bottom-left { content: "Kernbook ${version}"; font: 8pt sans-serif; }
  @bottom-right { content: counter(page) " of " counter(pages); font: 8pt sans-serif; } }
.kn-page { color-scheme: light; background: #fff; color: #1b1f23; font: 9.5pt/1.4 system-ui, "Segoe UI", sans-serif;
  max-width: 180mm; margin: 0 auto; overflow-wrap: anywhere; }
@media screen { .kn-page { padding: 12mm; font-size: 15px; } }
.kn-page h1 { font-size: 1.5em; line-height: 1.25; margin: 0 0 0.3em; }
.kn-page h2 { font-size: 1.15em; margin: 1.4em 0 0.4em; break-after: avoid; }
.kn-page h3 { font-size: 1em; margin: 1em 0 0.2em; break-after: avoid; }
.kn-page p { margin: 0.3em 0; }
.kn-page ul, .kn-page ol { margin: 0.3em 0; padding-left: 1.4em; }
.kn-page code { font-family: ui-monospace, Consolas, monospace; font-size: 0.9em; }
.kn-page code .kn-words, .kn-page code .kr-symbol, .kn-page code .kn-quiet { font-family: system-ui, "Segoe UI", sans-serif; }
.kn-page .kr-symbol { white-space: nowrap; }
.kn-page .kr-symbol sub { font-size: 0.75em; line-height: 0; }
.kn-page math { font-size: 1.08em;
  font-family: "Cambria Math", "STIX Two Math", "Latin Modern Math", "DejaVu Math TeX Gyre", math;
  overflow-wrap: normal; }
.kn-equation { padding: 0.15em 0; }
.kn-quiet { color: #545c64; font-size: 0.9em; }
.kn-facts { border-collapse: collapse; margin: 0.4em 0 0.8em; }
.kn-facts th { text-align: left; font-weight: 500; color: #545c64; padding: 0.1em 1em 0.1em 0; vertical-align: top; white-space: nowrap; }
.kn-facts td { padding: 0.1em 0; }
.kn-table { border-collapse: collapse; width: 100%; font-size: 0.94em; font-variant-numeric: tabular-nums; }
.kn-table th, .kn-table td { border-bottom: 1px solid #c6ccd2; padding: 0.2em 0.5em 0.2em 0; text-align: left;
  vertical-align: top; overflow-wrap: break-word; }
.kn-table thead th { color: #545c64; font-weight: 500; }
.kn-table .kn-number { text-align: right; white-space: nowrap; }
.kn-table tr, .kn-item { break-inside: avoid; }
.kn-item { border-top: 1px solid #c6ccd2; padding: 0.4em 0; }
.kn-gives { font-weight: 600; font-variant-numeric: tabular-nums; }
.kn-flag { border-left: 3px solid #a81c1c; padding-left: 0.6em; color: #a81c1c; }
.kn-page figure { margin: 0.6em 0; break-inside: avoid; }
.kn-page figcaption { font-weight: 600; }
.kn-page .kb-plot { display: block; max-width: 100%; height: auto; color: #1b1f23; background: none; overflow: visible;
  font: 12px system-ui, sans-serif; }
.kn-page .kb-plot text { white-space: pre; fill: #1b1f23; font-size: 12px; }
.kn-page .kb-plot .kb-mark { fill: currentColor; }
.kn-page .kb-plot .kb-point { fill: currentColor; stroke: #fff; stroke-width: 1.2px; }
.kn-page .kb-outline { fill: none; stroke: currentColor; }
.kn-page .kb-zero { color: #545c64; }
.kn-page .kb-limit { color: #b00020; }
.kn-page .kb-series-0 { color: #0b5fae; } .kn-page .kb-series-1 { color: #9a4a00; }
.kn-page .kb-series-2 { color: #1a7040; } .kn-page .kb-series-3 { color: #7b2fa0; }
.kn-page .kb-series-4 { color: #4a5560; } .kn-page .kb-series-5 { color: #8a6d00; }
.kn-page .kn-legend { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: 0 1em; font-size: 0.9em; }
.kn-page .kn-logo { display: block; margin: 0 0 0.6em auto; height: auto; }
.kn-chapter { break-before: page; }
@media print { .kn-brief { font-size: 8pt; line-height: 1.25; } }
.kn-brief h3 { margin: 0.7em 0 0.1em; } .kn-brief h4 { margin: 0.6em 0 0.1em; break-after: avoid; }
.kn-brief .kn-table th, .kn-brief .kn-table td { padding: 0.08em 0.4em 0.08em 0; }
.kn-brief p { margin: 0.15em 0; }
.kn-brief .kn-item { padding: 0.2em 0; }
.kn-dense { font-size: 0.92em; width: 100%; }
.kn-dense .kn-wraps { white-space: normal; }
.kn-dense thead th { vertical-align: bottom; }
.kn-how { color: #3a4148; }
.kn-given { list-style: none; padding: 0; columns: 2; column-gap: 6mm; font-size: 0.95em; }
.kn-page .kn-given { padding-left: 0; }
.kn-given li { break-inside: avoid; border-bottom: 1px solid #dde1e5; }
.kn-pair { display: grid; grid-template-columns: 1fr 1fr; gap: 0 6mm; align-items: start; }
.kn-columns { columns: 2; column-gap: 7mm; }
.kn-columns .kn-item { break-inside: auto; } .kn-columns .kn-equation { overflow: hidden; }
.kn-columns math { font-size: 1em; } .kn-columns .kn-equation { padding: 0; }
.kn-chapter.kn-brief { break-before: auto; border-top: 2px solid #1b1f23; margin-top: 1.4em; }
.kn-caution { border: 1px solid #7a4d00; padding: 0.2em 0.8em; margin-top: 1.4em; break-inside: avoid; }
`;

/** Pictures stand in the document itself. */
const policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** A whole HTML document to print or to keep: without script, whole by itself, A4, its pages numbered where the program can. */
export function paperDocument(title: string, content: Markup): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${new Markup(policy)}">
<title>${title}</title>
<style>${new Markup(style)}</style>
</head>
<body>
<main class="kn-page">
${content}
</main>
</body>
</html>
`.text;
}
