import type { GridHost, Place } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";

/** The names of the sheets' rows begin so; whoever goes to one need not type it. */
const prefix = "kb_";
const address = /^\$?([A-Za-z]{1,3})\$?(\d{1,6})$/;

function cellOf(text: string): { readonly row: number; readonly column: number } | undefined {
  const found = address.exec(text);
  if (!found) return undefined;
  const column = [...found[1]!.toUpperCase()].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return { row: Number(found[2]) - 1, column };
}

/** The cell that a person means by an address or a name on a sheet; undefined where there is none. A name goes before a cell. */
export async function placeMeant(
  host: Pick<GridHost, "namesOn" | "sheetNames">,
  text: string,
  shown: string,
): Promise<Place | undefined> {
  const [rest = "", ...before] = text.trim().split("!").reverse();
  const sheet = before.length === 0 ? shown : before.reverse().join("!").replace(/^'|'$/g, "");
  if (!(await host.sheetNames()).includes(sheet)) return undefined;
  const wanted = rest.toLowerCase();
  const names = await host.namesOn(sheet);
  const named = names.find(({ name }) => [wanted, `${prefix}${wanted}`].includes(name.toLowerCase()))?.area;
  if (named) return { sheet: named.sheet, row: named.row, column: named.column };
  const cell = cellOf(rest);
  return cell && { sheet, ...cell };
}

/** A line over the grid that asks where to go: Ctrl+G opens it, Enter goes, Escape leaves. */
function askWhere(grid: HTMLElement, host: GridHost): void {
  if (document.getElementById("go-to")) return;
  const back = document.activeElement as HTMLElement | null;
  const form = document.createElement("form");
  form.id = "go-to";
  const label = document.createElement("label");
  label.textContent = "Go to cell or input, such as H40, L or Beam!fck: ";
  const field = document.createElement("input");
  field.autocomplete = "off";
  field.spellcheck = false;
  const said = document.createElement("span");
  said.setAttribute("role", "alert");
  label.append(field);
  form.append(label, said);
  const close = (): void => {
    form.remove();
    back?.focus();
  };
  const go = async (): Promise<void> => {
    const shown = (await host.selection())?.sheet ?? (await host.sheetNames())[0]!;
    const place = await placeMeant(host, field.value, shown);
    if (!place) {
      said.textContent = ` “${field.value}” is no cell and no name on this sheet.`;
      return;
    }
    close();
    await host.select(place);
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    go().catch((error: unknown) => (said.textContent = ` ${whyNot(error)}`));
  });
  form.addEventListener("keydown", (event) => {
    // What is typed here is none of the grid's.
    event.stopPropagation();
    if (event.key === "Escape") close();
  });
  grid.before(form);
  field.focus();
}

/** Page Down and Page Up by what is in view, and Ctrl+G to a cell or a named input. */
export function moveByKeys(grid: HTMLElement, host: GridHost): void {
  window.addEventListener(
    "keydown",
    (event) => {
      const { key, target } = event;
      const inGrid = target === document.body || (target instanceof Node && grid.contains(target));
      if (!inGrid || event.altKey || event.shiftKey) return;
      const ctrl = event.ctrlKey || event.metaKey;
      const pages = !ctrl && (key === "PageDown" || key === "PageUp");
      const asks = ctrl && key.toLowerCase() === "g";
      if (!pages && !asks) return;
      event.preventDefault();
      event.stopPropagation();
      if (asks) askWhere(grid, host);
      else host.page(key === "PageDown").catch((error: unknown) => console.error(error));
    },
    true,
  );
}
