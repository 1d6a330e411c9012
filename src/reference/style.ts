const light =
  "--kb-ground: #fff; --kb-raised: #f4f5f6; --kb-ink: #1b1f23; --kb-quiet: #545c64; --kb-line: #c6ccd2; " +
  "--kb-accent: #0b5f7a; --kb-good: #1b6b33; --kb-bad: #a81c1c; --kb-open: #7a4d00; " +
  "--kb-goodground: #e3f3e7; --kb-badground: #fbe6e6; --kb-openground: #fdf0d5;";
const dark =
  "--kb-ground: #1c1f22; --kb-raised: #282c30; --kb-ink: #eceff1; --kb-quiet: #b3bbc2; " +
  "--kb-line: #4b535a; --kb-accent: #7cc7e0; --kb-good: #93dba6; --kb-bad: #ffb0a8; --kb-open: #f5cf85; " +
  "--kb-goodground: #1d3a26; --kb-badground: #4a2020; --kb-openground: #43340f;";

/** What a page needs around the content: the colours of the panel, and the sheet of paper. */
export const frameStyle = `
:root { ${light} color-scheme: light; }
@media screen and (prefers-color-scheme: dark) { :root { ${dark} color-scheme: dark; } }
body { margin: 0; background: var(--kb-ground); color: var(--kb-ink); font: 16px/1.5 system-ui, "Segoe UI", sans-serif; }
.kr-head, .kr-page, .kr-foot { max-width: 52rem; margin: 0 auto; padding: 0 1rem; box-sizing: border-box; }
.kr-head { padding-top: 0.75rem; padding-bottom: 0.5rem; }
.kr-head nav { display: flex; flex-wrap: wrap; gap: 0.25rem 1.25rem; border-bottom: 1px solid var(--kb-line); padding-bottom: 0.5rem; }
.kr-head a { color: var(--kb-accent); }
.kr-foot { margin-top: 2.5rem; padding-top: 0.75rem; padding-bottom: 1.5rem; color: var(--kb-quiet); font-size: 0.85rem; }
@page { size: A4; margin: 16mm 15mm; @bottom-right { content: counter(page); font: 8pt sans-serif; } }
@media print { .kr-head { display: none; } body { font-size: 9.5pt; line-height: 1.4; } .kr-page { max-width: none; padding: 0; } }
`;

/** The content, as it stands on a page and in the panel; colours come from where it stands. */
export const contentStyle = `
.kr-page { overflow-wrap: anywhere; container-type: inline-size; }
.kr-page h1 { font-size: 1.5em; line-height: 1.25; margin: 0.5em 0 0.3em; }
.kr-page h2 { font-size: 1.15em; margin: 1.6em 0 0.3em; }
.kr-page h3 { font-size: 1em; margin: 1.1em 0 0.2em; }
.kr-page h4 { font-size: 0.95em; margin: 1em 0 0.2em; }
.kr-page p { margin: 0.4em 0; }
.kr-page ul, .kr-page ol { margin: 0.3em 0; padding-left: 1.3em; }
.kr-page a { color: var(--kb-accent); }
.kr-page :focus-visible { outline: 2px solid var(--kb-accent); outline-offset: 2px; }
.kr-page code { font-family: ui-monospace, Consolas, monospace; font-size: 0.92em; }
.kr-page small { font-size: 0.85em; }
.kr-subject, .kr-facts { color: var(--kb-quiet); font-size: 0.88em; }
.kr-facts b { color: var(--kb-ink); }
.kr-page .kr-subject { margin: 0.8em 0 0; }
.kr-page .kr-subject + h1 { margin-top: 0.2em; }
.kr-summary { font-size: 1.05em; }
.kr-symbol { white-space: nowrap; }
.kr-symbol sub { font-size: 0.75em; line-height: 0; }
.kr-caution {
  border-left: 4px solid var(--kb-open);
  background: var(--kb-openground);
  padding: 0.15em 0.6em;
  margin: 0.8em 0;
  font-size: 0.92em;
}
.kr-syntax { background: var(--kb-raised); border-radius: 3px; padding: 0.4em 0.6em; }
.kr-page .kr-arguments, .kr-page .kr-steps, .kr-page .kr-values, .kr-page .kr-list, .kr-page .kr-tasks { list-style: none; padding: 0; }
.kr-arguments > li, .kr-steps > li, .kr-list > li { border-bottom: 1px solid var(--kb-line); padding: 0.4em 0; }
.kr-columns > li { padding: 0.15em 0; }
.kr-values > li { padding: 0.1em 0; }
.kr-input { white-space: normal; }
@container (min-width: 36rem) {
  .kr-arguments > li { display: grid; grid-template-columns: 12rem minmax(0, 1fr); gap: 0 1rem; }
  .kr-tasks { columns: 2; }
}
.kr-page .kr-tasks > li { padding: 0.15em 0; break-inside: avoid; }
.kr-letters { font-size: 1.1em; line-height: 1.8; }
.kr-letters a { display: inline-block; min-width: 1.5em; }
.kr-equation { overflow-x: auto; overflow-y: hidden; padding: 0.4em 0; max-width: 100%; }
.kr-equation math {
  font-size: 1.1em;
  font-family: "Cambria Math", "STIX Two Math", "Latin Modern Math", "DejaVu Math TeX Gyre", math;
  overflow-wrap: normal;
}
.kr-scroll { overflow-x: auto; max-width: 100%; margin: 0.4em 0; overflow-wrap: normal; }
.kr-table { border-collapse: collapse; font-size: 0.9em; font-variant-numeric: tabular-nums; }
.kr-table th, .kr-table td { border-bottom: 1px solid var(--kb-line); padding: 0.2em 0.6em; text-align: right; vertical-align: top; }
.kr-table thead th { color: var(--kb-quiet); font-weight: 500; vertical-align: bottom; }
.kr-lookup tbody th, .kr-lookup thead th:first-child { text-align: left; }
.kr-lookup tbody th { font-weight: 400; }
.kr-gives { font-size: 1.15em; font-weight: 600; border-top: 1px solid var(--kb-line); padding-top: 0.3em; }
.kr-tag {
  display: inline-block;
  padding: 0 0.45em;
  border-radius: 3px;
  border: 1px solid currentColor;
  font-size: 0.82em;
  font-weight: 600;
  color: var(--kb-quiet);
}
.kr-page .kr-good { color: var(--kb-good); }
.kr-page .kr-bad { color: var(--kb-bad); font-weight: 600; }
.kr-page .kr-open { color: var(--kb-open); }
.kr-page .kr-tag.kr-good { background: var(--kb-goodground); }
.kr-page .kr-tag.kr-bad { background: var(--kb-badground); }
.kr-page .kr-tag.kr-open { background: var(--kb-openground); }
.kr-page .kr-contents { padding-left: 2.2em; }
.kr-page summary { cursor: pointer; color: var(--kb-accent); }
.kr-check { border-top: 1px solid var(--kb-line); }
@media print {
  .kr-page .kr-check, .kr-arguments > li, .kr-steps > li, .kr-table tr, .kr-lookup { break-inside: avoid; }
  .kr-page h2, .kr-page h3, .kr-page h4 { break-after: avoid; }
  .kr-scroll, .kr-equation { overflow: visible; }
  .kr-page a { color: inherit; }
  .kr-chapter { break-before: page; }
}
`;
