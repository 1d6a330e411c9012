import type { IDefinedNamesServiceParam } from "@univerjs/engine-formula";
import { areaA1, placeOf, type PlannedName } from "../../sheet/index.ts";
import type { SheetName } from "../host.ts";
import { quotedSheet } from "../sheetName.ts";
import { followSheets } from "./namesFollow.ts";
import { workbookId, type GridRuntime } from "./runtime.ts";

const same = (name: string): string => name.toLowerCase();

/** Hidden names are kept without dollar signs: the grid's name box shows the first name with the very text of the selected cell's reference. */
function absolute(reference: string): string {
  const at = reference.lastIndexOf("!") + 1;
  return reference.slice(0, at) + reference.slice(at).replace(/\$?([A-Z]+)\$?(\d+)/g, "$$$1$$$2");
}

/**
 * Names that belong to one sheet. The grid stores a name's sheet but looks names up in the whole workbook, so that on the second of two equal
 * sheets a name would silently give the first one's value. Here each name stands in the grid under a hidden one of its own; the plain name is
 * there only while one sheet alone has it, and `#NAME?` afterwards.
 */
export class SheetNames {
  readonly #grid: GridRuntime;
  /** Sheet ids by name, by sheet. */
  readonly #bySheet = new Map<string, ReadonlyMap<string, string>>();

  constructor(grid: GridRuntime) {
    this.#grid = grid;
    followSheets(grid, this);
  }

  add(sheetId: string, sheetName: string, names: readonly PlannedName[]): void {
    const suffix = sheetId.replace(/\W/g, "_");
    for (const area of names)
      this.#set({
        id: this.#id(sheetId, area.name),
        name: `${area.name}.${suffix}`,
        formulaOrRefString: `${quotedSheet(sheetName)}!${areaA1(area, false)}`,
        hidden: true,
      });
    this.#bySheet.set(sheetId, new Map(names.map(({ name }) => [same(name), name])));
    this.#updatePlain(names.map(({ name }) => name));
  }

  remove(sheetId: string): void {
    const names = this.#bySheet.get(sheetId);
    if (!names) return;
    this.#bySheet.delete(sheetId);
    for (const name of names.values()) this.#drop(this.#id(sheetId, name));
    this.#updatePlain([...names.values()]);
  }

  /** The names of a sheet, with where their cells stand now. */
  on(sheetId: string): readonly SheetName[] {
    const map = this.#map();
    return [...(this.#bySheet.get(sheetId)?.values() ?? [])].map((name) => {
      const area = placeOf(map[this.#id(sheetId, name)]?.formulaOrRefString ?? "");
      return { name, ...(area && { area }) };
    });
  }

  /** The reference a name stands for on a sheet: its own, else one of the whole workbook's. */
  resolve(name: string, sheetId: string): string | undefined {
    const map = this.#map();
    const own = map[this.#id(sheetId, name)];
    if (own) return absolute(own.formulaOrRefString);
    return Object.values(map).find((entry) => same(entry.name) === same(name) && !entry.id.startsWith("plain!"))
      ?.formulaOrRefString;
  }

  #updatePlain(names: readonly string[]): void {
    for (const name of names) {
      const owners = [...this.#bySheet].filter(([, own]) => own.has(same(name))).map(([sheetId]) => sheetId);
      const id = `plain!${same(name)}`;
      const only = owners.length === 1 ? this.#map()[this.#id(owners[0]!, name)] : undefined;
      if (only)
        this.#set({ id, name, formulaOrRefString: absolute(only.formulaOrRefString), localSheetId: owners[0]! });
      else if (this.#map()[id]) this.#drop(id);
    }
    if (names.length > 0) this.#forgetParsed();
  }

  /** The grid keeps formulas parsed, with what their names stood for then: a name that is gone would go on giving the old cells' value. */
  #forgetParsed(): void {
    const { formula, univer } = this.#grid;
    // Every formula contains the empty text.
    univer.__getInjector().get(formula.IFunctionService).deleteFormulaAstCacheKey("");
  }

  #id(sheetId: string, name: string): string {
    return `${sheetId}!${same(name)}`;
  }

  #map(): Readonly<Record<string, IDefinedNamesServiceParam>> {
    const { formula, univer } = this.#grid;
    return univer.__getInjector().get(formula.IDefinedNamesService).getDefinedNameMap(workbookId) ?? {};
  }

  #set(entry: IDefinedNamesServiceParam): void {
    this.#run("formula.mutation.set-defined-name", entry);
  }

  #drop(id: string): void {
    const entry = this.#map()[id];
    if (entry) this.#run("formula.mutation.remove-defined-name", entry);
  }

  #run(mutation: string, entry: IDefinedNamesServiceParam): void {
    const { core, univer } = this.#grid;
    if (
      !univer
        .__getInjector()
        .get(core.ICommandService)
        .syncExecuteCommand(mutation, { unitId: workbookId, ...entry })
    )
      throw new Error(`the grid refused the name ${entry.name}`);
  }
}
