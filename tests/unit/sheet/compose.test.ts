import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compose } from "../../../src/sheet/index.ts";

describe("shared parts", () => {
  const parts = {
    pair: [{ id: "a" }, { id: "b" }],
    nested: [{ use: "pair" }, { id: "c" }],
    round: [{ use: "again" }],
    again: [{ use: "round" }],
  };

  it("stand where they are used, in order, at any depth", () => {
    expect(
      compose(
        {
          items: [{ id: "first" }, { use: "nested" }, { id: "last", columns: [{ use: "pair" }] }],
          use: "not in an array",
        },
        parts,
      ),
    ).toEqual({
      items: [
        { id: "first" },
        { id: "a" },
        { id: "b" },
        { id: "c" },
        { id: "last", columns: [{ id: "a" }, { id: "b" }] },
      ],
      use: "not in an array",
    });
  });

  it("leave a larger object that has a use of its own", () => {
    expect(compose([{ use: "pair", id: "x" }], parts)).toEqual([{ use: "pair", id: "x" }]);
  });

  it("are refused by name where there is none, and where one uses itself", () => {
    expect(() => compose([{ use: "pear" }], parts)).toThrow(
      "there is no shared part pear; there are again, nested, pair, round",
    );
    expect(() => compose([{ use: "round" }], parts)).toThrow("the shared part round uses itself: round, again");
  });
});

describe("the shared parts of the templates", () => {
  const folder = new URL("../../../src/templates/", import.meta.url);
  const read = (url: URL): string => readFileSync(url, "utf8");
  const shared = readdirSync(new URL("shared/", folder)).map((name) => read(new URL(`shared/${name}`, folder)));
  const names = shared.flatMap((text) => Object.keys(JSON.parse(text) as object));
  const files = readdirSync(folder)
    .filter((name) => name.endsWith(".json"))
    .map((name) => read(new URL(name, folder)));

  it("have one name each", () => expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]));

  it("are all used", () => {
    const used = [...files, ...shared].join("\n");
    expect(names.filter((name) => !new RegExp(`"use":\\s*"${name}"`).test(used))).toEqual([]);
  });
});
