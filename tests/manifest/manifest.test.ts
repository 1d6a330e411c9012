import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { XMLParser } from "fast-xml-parser";
import { OfficeAddinManifest } from "office-addin-manifest";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { namespace } from "../../functions/index.ts";
import { deploymentAddress } from "../../src/command/address.ts";
import { manifestFor } from "../../src/command/manifest.ts";
import { requiredSets } from "../../src/hosts/index.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { readonly version: string };
const address = "https://sheets.example.com/kernbook";
const xml = manifestFor(readFileSync(join(root, "manifest/manifest.xml"), "utf8"), address, version);

/** An element as [name, attributes, children or text]. */
interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  readonly text: string;
}

function elements(nodes: readonly Record<string, unknown>[]): Element[] {
  return nodes.flatMap((node) => {
    const name = Object.keys(node).find((key) => key !== ":@" && key !== "#text");
    if (name === undefined || name.startsWith("?")) return [];
    const inner = node[name] as Record<string, unknown>[];
    return [
      {
        name,
        attributes: (node[":@"] ?? {}) as Record<string, string>,
        children: elements(inner),
        text: inner.map((it) => (typeof it["#text"] === "string" ? it["#text"] : "")).join(""),
      },
    ];
  });
}
const [app] = elements(
  new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: "",
    parseTagValue: false,
    parseAttributeValue: false,
  }).parse(xml) as Record<string, unknown>[],
);
const all = (element: Element): Element[] => [element, ...element.children.flatMap(all)];
const every = all(app!);
const named = (name: string): Element[] => every.filter((element) => element.name === name);

describe("the manifest", () => {
  it("puts elements in the order the program asks for", () => {
    const order = (name: string): readonly string[] => named(name)[0]!.children.map((child) => child.name);
    expect(order("OfficeApp")).toEqual([
      "Id",
      "Version",
      "ProviderName",
      "DefaultLocale",
      "DisplayName",
      "Description",
      "IconUrl",
      "HighResolutionIconUrl",
      "SupportUrl",
      "Hosts",
      "Requirements",
      "DefaultSettings",
      "Permissions",
      "VersionOverrides",
    ]);
    const inner = named("Host").find(({ attributes }) => attributes["xsi:type"] === "Workbook")!;
    expect(inner.children.map(({ name }) => name)).toEqual(["Runtimes", "AllFormFactors", "DesktopFormFactor"]);
    expect(order("VersionOverrides")).toEqual(["Hosts", "Resources"]);
    expect(order("Group")).toEqual(["Label", "Icon", "Control"]);
    for (const { children } of named("Supertip"))
      expect(children.map(({ name }) => name)).toEqual(["Title", "Description"]);
    expect(order("GetStarted")).toEqual(["Title", "Description", "LearnMoreUrl"]);
    for (const icon of named("Icon"))
      expect(icon.children.map(({ attributes }) => attributes["size"])).toEqual(["16", "32", "80"]);
    expect(order("DesktopFormFactor")).toEqual(["GetStarted", "FunctionFile", "ExtensionPoint"]);
    expect(order("ExtensionPoint")).toEqual(["Script", "Page", "Metadata", "Namespace"]);
    expect(order("Control")).toEqual(["Label", "Supertip", "Icon", "Action"]);
    expect(order("Resources")).toEqual(["bt:Images", "bt:Urls", "bt:ShortStrings", "bt:LongStrings"]);
  });

  it("defines every resource once, uses every one, and keeps within the lengths", () => {
    const defined = named("Resources")
      .flatMap(all)
      .filter(({ attributes }) => attributes["id"] !== undefined);
    const ids = defined.map(({ attributes }) => attributes["id"]!);
    const used = every.flatMap(({ attributes }) => (attributes["resid"] === undefined ? [] : [attributes["resid"]]));
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    expect([...new Set(used)].sort()).toEqual([...ids].sort());
    for (const id of ids) expect(id.length, id).toBeLessThanOrEqual(32);
    expect(namespace.length).toBeLessThanOrEqual(32);
    for (const { element, limit } of [
      { element: "DisplayName", limit: 125 },
      { element: "Description", limit: 250 },
    ])
      expect(named(element)[0]!.attributes["DefaultValue"]!.length, element).toBeLessThanOrEqual(limit);
    for (const { name, limit } of [
      { name: "bt:ShortStrings", limit: 125 },
      { name: "bt:LongStrings", limit: 250 },
    ]) {
      for (const { attributes } of named(name).flatMap(({ children }) => children))
        expect(attributes["DefaultValue"]!.length, attributes["id"]).toBeLessThanOrEqual(limit);
    }
  });

  it("keeps functions and panel in one runtime", () => {
    const [runtime] = named("Runtime");
    expect(runtime!.attributes).toMatchObject({ lifetime: "long" });
    const page = runtime!.attributes["resid"];
    for (const name of ["Page", "Action"]) expect(named(name)[0]!.children[0]!.attributes["resid"], name).toBe(page);
    expect(named("FunctionFile")[0]!.attributes["resid"]).toBe(page);
    expect(named("TaskpaneId")).toEqual([]);
  });

  it("trusts no other site, and is opened by its button alone", () => {
    // Its own is trusted in any case.
    expect(named("AppDomain")).toEqual([]);
    expect(named("OfficeTab").map(({ attributes }) => attributes["id"])).toEqual(["TabHome"]);
    expect(named("Permissions")[0]!.text).toBe("ReadWriteDocument");
  });

  it("stands under its address, with files that the build makes", () => {
    const urls = every
      .flatMap(({ attributes, text }) => [...Object.values(attributes), text])
      .filter(
        (text) =>
          /^https?:/.test(text) && !text.startsWith("http://schemas.") && !text.startsWith("http://www.w3.org/"),
      );
    const config = readFileSync(join(root, "webpack.config.js"), "utf8");
    for (const url of urls) expect(url === address || url.startsWith(`${address}/`), url).toBe(true);
    const files = [
      ...new Set(urls.filter((url) => url !== address).map((url) => url.slice(address.length + 1))),
    ].sort();
    expect(files).toEqual([
      "functions.js",
      "functions.json",
      "icons/icon-16.png",
      "icons/icon-32.png",
      "icons/icon-64.png",
      "icons/icon-80.png",
      "taskpane.html",
    ]);
    for (const file of files) {
      if (file.startsWith("icons/")) {
        expect(existsSync(join(root, "manifest", file)), file).toBe(true);
        expect(config).toContain(file.slice("icons/".length));
        const size = Number(/\d+/.exec(file)![0]);
        const png = readFileSync(join(root, "manifest", file));
        expect([png.readUInt32BE(16), png.readUInt32BE(20)], file).toEqual([size, size]);
      }
    }
  });

  it("names the functions' namespace, the package's version and the API sets that the host needs", () => {
    expect(
      named("bt:String").find(({ attributes }) => attributes["id"] === "Functions.Namespace")!.attributes[
        "DefaultValue"
      ],
    ).toBe(namespace);
    expect(named("Version")[0]!.text).toBe(`${version}.0`);
    expect(named("Set").map(({ attributes }) => [attributes["Name"], attributes["MinVersion"]])).toEqual(
      requiredSets.map(({ set, version: least }) => [set, least]),
    );
    expect(named("Id")[0]!.text).toBe("7c3de2a4-51b9-4f0e-9d36-8a1f5be04c72");
  });

  it("asks the build for no place it does not know", () => {
    expect(xml).not.toMatch(/\{\{|<!--/);
    expect(() => manifestFor("<a>{{nothing}}</a>", address, version)).toThrow("{{nothing}}");
  });
});

describe("the address", () => {
  it("is this machine unless the build says otherwise", () => {
    expect(deploymentAddress("")).toBe("https://localhost:3000");
    expect(deploymentAddress(address)).toBe(address);
  });
  it.each([
    ["sheets.example.com", "no address"],
    ["http://sheets.example.com", "https only"],
    ["https://sheets.example.com/", "slash at the end"],
    ["https://sheets.example.com/a?b=1", "after ?"],
  ])("refuses %s", (text, words) => {
    expect(() => deploymentAddress(text)).toThrow(words);
  });
});

describe("by other readers", () => {
  let folder = "";
  let file = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "kernbook-manifest-"));
    file = join(folder, "manifest.xml");
    writeFileSync(file, xml);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it("is read by the manifest package", async () => {
    const info = await OfficeAddinManifest.readManifestFile(file);
    expect(info).toMatchObject({
      id: "7c3de2a4-51b9-4f0e-9d36-8a1f5be04c72",
      displayName: "Kernbook",
      version: `${version}.0`,
      officeAppType: "TaskPaneApp",
      permissions: "ReadWriteDocument",
      hosts: ["Workbook"],
    });
  });

  const schema = join(root, "../shared/platform/xsd/OfficeAppManifestV1_1.xsd");
  const canValidate = existsSync(schema) && spawnSync("xmllint", ["--version"]).status === 0;
  if (!canValidate)
    console.log(
      "The published schema of manifests or xmllint is not on this machine: the manifest was held against the rules above only.",
    );
  it.runIf(canValidate)("is valid by the published schema", () => {
    const { status, stderr } = spawnSync("xmllint", ["--noout", "--schema", schema, file], { encoding: "utf8" });
    expect(stderr.trim().split("\n").at(-1)).toContain("validates");
    expect(status).toBe(0);
  });
});
