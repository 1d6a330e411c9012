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
  metadata: `${office}/sheetMetadata`,
  theme: `${office}/theme`,
  drawing: `${office}/drawing`,
  chart: `${office}/chart`,
  image: `${office}/image`,
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

export const contentTypes = {
  workbook: `${ofSheets}.sheet.main+xml`,
  sheet: `${ofSheets}.worksheet+xml`,
  styles: `${ofSheets}.styles+xml`,
  texts: `${ofSheets}.sharedStrings+xml`,
  metadata: `${ofSheets}.sheetMetadata+xml`,
  drawing: "application/vnd.openxmlformats-officedocument.drawing+xml",
  chart: "application/vnd.openxmlformats-officedocument.drawingml.chart+xml",
  core: "application/vnd.openxmlformats-package.core-properties+xml",
  app: "application/vnd.openxmlformats-officedocument.extended-properties+xml",
} as const;

/** What each part is, by its full name; `pictures`: their kinds, which their names end with. */
export function contentTypesXml(
  parts: readonly (readonly [name: string, kind: keyof typeof contentTypes])[],
  pictures: ReadonlySet<string> = new Set(),
): string {
  return part(
    element(
      "Types",
      { xmlns: `${packages}/content-types` },
      element("Default", {
        Extension: "rels",
        ContentType: "application/vnd.openxmlformats-package.relationships+xml",
      }),
      element("Default", { Extension: "xml", ContentType: "application/xml" }),
      ...[...pictures].map((kind) => element("Default", { Extension: kind, ContentType: `image/${kind}` })),
      ...parts.map(([name, kind]) => element("Override", { PartName: `/${name}`, ContentType: contentTypes[kind] })),
    ),
  );
}
