import type { Computed, FakeWorkbook } from "../../hosts/excelFake/index.ts";

type Results = ReadonlyMap<string, ReadonlyMap<string, Computed>>;

const withLists = (_key: string, value: unknown): unknown => (value instanceof Map ? { map: [...value] } : value);
const withMaps = (_key: string, value: unknown): unknown =>
  typeof value === "object" && value !== null && "map" in value && Array.isArray(value.map)
    ? new Map(value.map as [unknown, unknown][])
    : value;

/** A workbook, or what was computed for it, as text between the page and the test. */
export const toText = (value: FakeWorkbook | Results): string => JSON.stringify(value, withLists);
export const workbookOf = (text: string): FakeWorkbook => JSON.parse(text, withMaps) as FakeWorkbook;
export const resultsOf = (text: string): Results => JSON.parse(text, withMaps) as Results;
