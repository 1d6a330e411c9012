import { referenceFolder } from "../../functions/index.ts";

/** A page of the reference, ready to stand in the panel. */
export interface ReferencePage {
  readonly content: string;
  readonly style: string;
}

const pages = new Map<string, Promise<ReferencePage>>();

/** In the panel the page stands below the headings of the panel's own page. */
function lowerHeadings(main: Element, page: Document): void {
  for (const level of [4, 3, 2, 1]) {
    for (const heading of [...main.querySelectorAll(`h${level}`)]) {
      const lower = page.createElement(`h${level + 1}`);
      for (const { name, value } of [...heading.attributes]) lower.setAttribute(name, value);
      lower.append(...heading.childNodes);
      heading.replaceWith(lower);
    }
  }
}

async function fetched(file: string): Promise<ReferencePage> {
  const answer = await fetch(`${referenceFolder}/${file}`);
  if (!answer.ok) throw new Error(`${file} is not among the reference pages (${answer.status})`);
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const main = page.querySelector("main");
  if (!main) throw new Error(`${file} is no reference page`);
  lowerHeadings(main, page);
  return { content: main.innerHTML, style: page.getElementById("kr-style")?.textContent ?? "" };
}

/** The page as the build wrote it, once; one that could not be had is asked for again. */
export function referencePageOf(file: string): Promise<ReferencePage> {
  const known = pages.get(file);
  if (known) return known;
  const asked = fetched(file);
  pages.set(file, asked);
  asked.catch(() => pages.delete(file));
  return asked;
}
