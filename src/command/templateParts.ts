import type { Template } from "../sheet/index.ts";
import { allTemplates } from "../templates/index.ts";
import { catalogue } from "../templates/catalogue.ts";

/** The text of a template without the source that it takes from, which is a part of its own. */
function textOf({ source, ...template }: Template): string {
  return JSON.stringify({ ...template, ...(source && { source: { name: source.name } }) });
}

/**
 * `catalogue.ts` as pages have it: asked for by itself, the entries and what loads a template; with `?<id>`, the JSON of
 * that template, its shared parts in place.
 */
export function templatePart(query: string): string {
  if (query === "") return catalogueText();
  const template = allTemplates.find(({ id }) => `?${id}` === query);
  if (!template) throw new Error(`there is no template ${query.slice(1)}`);
  return textOf(template);
}

function catalogueText(): string {
  const parts = catalogue.map(
    ({ id }) => `  "${id}": () => import(/* webpackChunkName: "${id}" */ "./catalogue.ts?${id}"),`,
  );
  return `export const catalogue = ${JSON.stringify(catalogue)};
const parts = {
${parts.join("\n")}
};
const kept = new Map();
async function load(id) {
  const own = catalogue.find((entry) => entry.id === id);
  if (!own) throw new Error(\`there is no template \${id}\`);
  const [part, source] = await Promise.all([parts[id](), own.source && loadTemplate(own.source)]);
  return source ? { ...part.default, source: { ...part.default.source, template: source } } : part.default;
}
export function loadTemplate(id) {
  const before = kept.get(id);
  if (before) return before;
  const asked = load(id);
  kept.set(id, asked);
  asked.catch(() => kept.delete(id));
  return asked;
}
`;
}
