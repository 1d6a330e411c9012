import type { IDefinedNamesService, IDefinedNamesServiceParam } from "@univerjs/engine-formula";
import { areaA1, placeOf, quotedSheet, wordsIn } from "../../cells/index.ts";
import type { PlannedName } from "../../sheet/index.ts";
import type { SheetName } from "../host/host.ts";
import { followSheets } from "./namesFollow.ts";
import { forgetWords } from "./parsedFormulas.ts";
import { workbookId, type GridRuntime } from "./runtime.ts";

const same = (name: string): string => name.toLowerCase();

/** As the grid marks names of no sheet in particular. */
const wholeWorkbook = "AllDefaultWorkbook";
const givenId = "given!";

/** What all of them begin with. */
function commonBeginning(names: readonly string[]): string {
  const [first = ""] = names;
  let length = first.length;
  for (const name of names) while (!name.startsWith(first.slice(0, length))) length--;
  return first.slice(0, length);
}

/**
 * Every word that can be a name, in small letters, of the workbook's formulas in which `beginning` stands. Taking all
 * formulas apart for each sheet built would make every sheet slower to build than the one before.
 */
function wordsOfFormulas({ api }: GridRuntime, beginning: string): ReadonlySet<string> {
  const words = new Set<string>();
  for (const sheet of api.getActiveWorkbook()?.getSheets() ?? [])
    sheet
      .getSheet()
      .getCellMatrix()
      .forValue((_row, _column, cell) => {
        const formula = cell?.f ?? "";
        if (formula !== "" && same(formula).includes(beginning))
          for (const word of wordsIn(formula)) words.add(same(word));
      });
  return words;
}

/**
 * Hidden names are kept without dollar signs: the grid's name box shows the first name with the very text of the
 * selected cell's reference.
 */
function absolute(reference: string): string {
  const area = placeOf(reference, "");
  return area ? reference.slice(0, reference.lastIndexOf("!") + 1) + areaA1(area) : reference;
}

/**
 * Names that belong to one sheet. The grid stores a name's sheet but looks names up in the whole workbook, so that on
 * the second of two equal sheets a name would silently give the first one's value. Here each name stands in the grid
 * under a hidden one of its own; the plain name is there only while one sheet alone has it, and `#NAME?` afterwards.
 */
export class SheetNames {
  readonly #grid: GridRuntime;
  /** Sheet ids by name, by sheet. */
  readonly #bySheet = new Map<string, ReadonlyMap<string, string>>();

  constructor(grid: GridRuntime) {
    this.#grid = grid;
    followSheets(grid, this);
  }

  /** Whether formulas of the workbook mention one of them, and are computed anew. */
  add(sheetId: string, sheetName: string, names: readonly PlannedName[]): boolean {
    const suffix = sheetId.replace(/\W/g, "_");
    this.#set(
      names.map((area) => ({
        id: this.#id(sheetId, area.name),
        name: `${area.name}.${suffix}`,
        formulaOrRefString: `${quotedSheet(sheetName)}!${areaA1(area, false)}`,
        hidden: true,
      })),
    );
    this.#bySheet.set(sheetId, new Map(names.map(({ name }) => [same(name), name])));
    return this.#updatePlain(names.map(({ name }) => name));
  }

  remove(sheetId: string): void {
    const names = this.#bySheet.get(sheetId);
    if (!names) return;
    this.#bySheet.delete(sheetId);
    this.#drop([...names.values()].map((name) => this.#id(sheetId, name)));
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

  /** The names that people gave, with the sheet they belong to unless it is the whole workbook. */
  given(): readonly { readonly name: string; readonly reference: string; readonly sheetId?: string }[] {
    return Object.values(this.#map())
      .filter(({ id, hidden }) => !id.startsWith("plain!") && (hidden !== true || id.startsWith(givenId)))
      .map(({ name, formulaOrRefString, localSheetId }) => ({
        name,
        reference: formulaOrRefString.replace(/^=/, ""),
        ...(localSheetId !== undefined && localSheetId !== wholeWorkbook && { sheetId: localSheetId }),
      }));
  }

  /** Puts a name there as people give one: of the whole workbook, or of one sheet. */
  give(name: string, reference: string, sheetId: string = wholeWorkbook): void {
    this.#run("formula.mutation.set-defined-name", {
      id: `${givenId}${sheetId}!${same(name)}`,
      name,
      formulaOrRefString: placeOf(reference, "") ? reference : `=${reference}`,
      localSheetId: sheetId,
    });
  }

  /** What now stands under names of the whole workbook; called, it puts that back. */
  keeping(names: readonly string[]): () => void {
    const ids = names.map((name) => `${givenId}${wholeWorkbook}!${same(name)}`);
    const map = this.#map();
    const before = ids.map((id) => map[id] && { ...map[id] });
    return () => {
      const now = this.#map();
      ids.forEach((id, i) => {
        const [old, standing] = [before[i], now[id]];
        if (old && standing?.formulaOrRefString !== old.formulaOrRefString)
          this.#run("formula.mutation.set-defined-name", old);
        else if (!old && standing) this.#run("formula.mutation.remove-defined-name", standing);
      });
      this.#forgetParsed();
    };
  }

  /** Takes away every name that people gave. */
  dropGiven(): void {
    for (const entry of Object.values(this.#map()))
      if (!entry.id.startsWith("plain!") && (entry.hidden !== true || entry.id.startsWith(givenId)))
        this.#run("formula.mutation.remove-defined-name", entry);
    this.#forgetParsed();
    forgetWords(this.#grid);
  }

  /** The reference a name stands for on a sheet: its own, else one of the whole workbook's. */
  resolve(name: string, sheetId: string): string | undefined {
    const map = this.#map();
    const own = map[this.#id(sheetId, name)];
    if (own) return absolute(own.formulaOrRefString);
    return Object.values(map).find((entry) => same(entry.name) === same(name) && !entry.id.startsWith("plain!"))
      ?.formulaOrRefString;
  }

  #updatePlain(names: readonly string[]): boolean {
    if (names.length === 0) return false;
    const map = this.#map();
    const standing: IDefinedNamesServiceParam[] = [];
    const gone: string[] = [];
    for (const name of names) {
      const owners = [...this.#bySheet].filter(([, own]) => own.has(same(name))).map(([sheetId]) => sheetId);
      const id = `plain!${same(name)}`;
      const only = owners.length === 1 ? map[this.#id(owners[0]!, name)] : undefined;
      if (only)
        standing.push({
          id,
          name,
          formulaOrRefString: absolute(only.formulaOrRefString),
          localSheetId: owners[0]!,
        });
      else if (map[id]) gone.push(id);
    }
    const mentioned = this.#set(standing);
    const missed = this.#drop(gone);
    this.#forgetParsed();
    return mentioned || missed;
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
    return this.#names().getDefinedNameMap(workbookId) ?? {};
  }

  /**
   * The grid compares every word of every formula with every name that has changed: a sheet has hundreds of them, and
   * most stand in no formula. So only those that do are changed in the way that has formulas computed anew.
   */
  #set(entries: readonly IDefinedNamesServiceParam[]): boolean {
    const mentioned = this.#mentioned(entries);
    const silent = entries.filter((entry) => !mentioned.has(entry));
    if (silent.length > 0)
      this.#names().registerDefinedNames(workbookId, {
        ...this.#map(),
        ...Object.fromEntries(silent.map((entry) => [entry.id, entry])),
      });
    for (const entry of mentioned) this.#run("formula.mutation.set-defined-name", entry);
    return mentioned.size > 0;
  }

  #drop(ids: readonly string[]): boolean {
    const map = this.#map();
    const entries = ids.flatMap((id) => map[id] ?? []);
    const mentioned = this.#mentioned(entries);
    const silent = new Set(entries.filter((entry) => !mentioned.has(entry)).map(({ id }) => id));
    if (silent.size > 0)
      this.#names().registerDefinedNames(
        workbookId,
        Object.fromEntries(Object.entries(map).filter(([id]) => !silent.has(id))),
      );
    for (const entry of mentioned) this.#run("formula.mutation.remove-defined-name", entry);
    return mentioned.size > 0;
  }

  /** Those of the names that a formula of the workbook may mention. */
  #mentioned(entries: readonly IDefinedNamesServiceParam[]): ReadonlySet<IDefinedNamesServiceParam> {
    if (entries.length === 0) return new Set();
    const words = wordsOfFormulas(this.#grid, commonBeginning(entries.map(({ name }) => same(name))));
    return new Set(entries.filter(({ name }) => words.has(same(name))));
  }

  #names(): IDefinedNamesService {
    const { formula, univer } = this.#grid;
    return univer.__getInjector().get(formula.IDefinedNamesService);
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
