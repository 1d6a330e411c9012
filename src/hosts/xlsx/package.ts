import { part, element } from "./xml.ts";

const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const packages = "http://schemas.openxmlformats.org/package/2006";
const ofSheets = "application/vnd.openxmlformats-officedocument.spreadsheetml";

export interface Relation {
  readonly type: string;
  readonly target: string;
}
export const relationTypes = {
  workbook: `${office}/officeDocument`,
  core: `${packages}/relationships/metadata/core-properties`,
  app: `${office}/extended-properties`,
  sheet: `${office}/worksheet`,
  styles: `${office}/styles`,
  texts: `${office}/sharedStrings`,
  drawing: `${office}/drawing`,
  chart: `${office}/chart`,
} as const;

/** What a part refers to, numbered rId1, rId2 and on. */
export function relationsXml(relations: readonly Relation[]): string {
  return part(
    element(
      "Relationships",
      { xmlns: `${packages}/relationships` },
      ...relations.map(({ type, target }, i) =>
        element("Relationship", { Id: `rId${i + 1}`, Type: type, Target: target }),
      ),
    ),
  );
}

/** `charts`: how many each sheet has. */
export function contentTypesXml(charts: readonly number[]): string {
  const total = charts.reduce((sum, count) => sum + count, 0);
  const override = (name: string, type: string): string => element("Override", { PartName: name, ContentType: type });
  return part(
    element(
      "Types",
      { xmlns: `${packages}/content-types` },
      element("Default", {
        Extension: "rels",
        ContentType: "application/vnd.openxmlformats-package.relationships+xml",
      }),
      element("Default", { Extension: "xml", ContentType: "application/xml" }),
      override("/xl/workbook.xml", `${ofSheets}.sheet.main+xml`),
      ...charts.map((_, i) => override(`/xl/worksheets/sheet${i + 1}.xml`, `${ofSheets}.worksheet+xml`)),
      override("/xl/styles.xml", `${ofSheets}.styles+xml`),
      override("/xl/sharedStrings.xml", `${ofSheets}.sharedStrings+xml`),
      ...charts.flatMap((count, i) =>
        count > 0
          ? [override(`/xl/drawings/drawing${i + 1}.xml`, "application/vnd.openxmlformats-officedocument.drawing+xml")]
          : [],
      ),
      ...Array.from({ length: total }, (_, i) =>
        override(`/xl/charts/chart${i + 1}.xml`, "application/vnd.openxmlformats-officedocument.drawingml.chart+xml"),
      ),
      override("/docProps/core.xml", "application/vnd.openxmlformats-package.core-properties+xml"),
      override("/docProps/app.xml", "application/vnd.openxmlformats-officedocument.extended-properties+xml"),
    ),
  );
}
