import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const html = readFileSync(new URL("../../taskpane/addin/taskpane.html", import.meta.url), "utf8");
const text = /<meta\s+http-equiv="Content-Security-Policy"\s+content="([^"]*)"\s*\/?>/.exec(html)?.[1] ?? "";
const policy = new Map(
  text
    .split(";")
    .map((part) => part.trim().split(/\s+/))
    .map(([name, ...sources]) => [name, sources]),
);
const hostOrigin = "https://appsforoffice.microsoft.com";

describe("the content-security policy of the add-in's page", () => {
  it("forbids what it does not name", () => {
    expect(policy.get("default-src")).toEqual(["'none'"]);
    expect(policy.get("base-uri")).toEqual(["'none'"]);
    expect(policy.get("form-action")).toEqual(["'none'"]);
  });

  it("runs scripts of its own and of the program only, and none made from text", () => {
    expect(policy.get("script-src")).toEqual(["'self'", hostOrigin]);
    expect(text).not.toMatch(/unsafe-eval|unsafe-hashes|strict-dynamic|\*|http:/);
  });

  it("lets nothing but that script come from elsewhere, and styles alone stand in the page", () => {
    for (const [name, sources] of policy) {
      if (name !== "script-src")
        expect(
          sources.filter((source) => !["'none'", "'self'", "'unsafe-inline'", "data:"].includes(source)),
          name,
        ).toEqual([]);
      expect(sources.includes("'unsafe-inline'"), name).toBe(name === "style-src");
    }
  });

  it("stands before the first script, and every script has its source in it", () => {
    expect(html.indexOf("Content-Security-Policy")).toBeLessThan(html.indexOf("<script"));
    const scripts = [...html.matchAll(/<script\b([^>]*)>([^<]*)<\/script>/g)].map(([, attributes, body]) => ({
      source: /src="([^"]*)"/.exec(attributes!)?.[1],
      body,
    }));
    expect(scripts).toEqual([{ source: `${hostOrigin}/lib/1/hosted/office.js`, body: "" }]);
    expect(html).not.toMatch(/\son\w+=|javascript:/);
  });
});
