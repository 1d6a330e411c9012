import { useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import type { OfficeDefaults } from "../../src/office/index.ts";
import type { Template } from "../../src/sheet/index.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { Problems } from "../problems.tsx";
import { chosenByName, forgetOffice, keepOffice, problemsOf } from "./officeDefaults.ts";

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  readonly template: Template | undefined;
  readonly defaults: OfficeDefaults | undefined;
  readonly setDefaults: (defaults: OfficeDefaults | undefined) => void;
}

/** The defaults of the office: which file, what is chosen from it, and what a sheet has otherwise. */
export function OfficeBox({ host, engine, template, defaults, setDefaults }: Props) {
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [said, setSaid] = useState<readonly string[]>([]);
  const open = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    setSaid([]);
    try {
      setDefaults(await keepOffice(await file.arrayBuffer(), engine));
      setProblems([]);
    } catch (error) {
      setProblems([`${file.name} was not taken; the defaults are as they were.`, ...problemsOf(error)]);
    }
  };
  const choose = (what: "duct" | "jack", name: string): void => {
    setDefaults(defaults && chosenByName(defaults, what, name));
  };
  const compare = async (): Promise<void> => {
    setProblems([]);
    try {
      setSaid(await comparedSheet(host, engine, defaults!));
    } catch (error) {
      setProblems([`The sheet could not be compared: ${whyNot(error)}`]);
    }
  };
  const used = template && defaults ? Object.keys(defaults.inputsFor(template)) : [];
  return (
    <details class="kb-office">
      <summary>Office defaults: {defaults?.name ?? "none"}</summary>
      <p class="kb-hint">
        One file of the office (JSON) with national factors, materials in stock, ducts, jacks and title block. It fills
        the inputs below, and the sheet marks them “office”. It is kept in this browser.
      </p>
      <p>
        <label>
          Choose a file:{" "}
          <input
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              const input = event.currentTarget;
              void open(input.files?.[0]).then(() => {
                input.value = "";
              });
            }}
          />
        </label>{" "}
        {defaults && (
          <button
            type="button"
            onClick={() => {
              forgetOffice();
              setDefaults(undefined);
            }}
          >
            Use none
          </button>
        )}
      </p>
      {(["duct", "jack"] as const).map((what) => {
        const names = (what === "duct" ? defaults?.file.ducts : defaults?.file.jacks) ?? [];
        return (
          names.length > 0 && (
            <div class="kb-field" key={what}>
              <label for={`kb-office-${what}`}>{what === "duct" ? "Duct of the office" : "Jack of the office"}</label>
              <select
                id={`kb-office-${what}`}
                value={defaults?.chosen[what] ?? ""}
                onChange={(event) => choose(what, event.currentTarget.value)}
              >
                <option value="">{what === "duct" ? `first: ${names[0]!.name}` : "in the order of the file"}</option>
                {names.map(({ name }) => (
                  <option key={name} value={name}>
                    {name}
                  </option>
                ))}
              </select>
            </div>
          )
        );
      })}
      {template && defaults && (
        <p class="kb-hint">{used.length === 0 ? "This template takes none of them." : `Fills: ${used.join(", ")}.`}</p>
      )}
      {defaults && (
        <p>
          <button type="button" onClick={() => void compare()}>
            Compare the selected sheet
          </button>
        </p>
      )}
      <div role="status">
        {said.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
      <Problems texts={problems} />
    </details>
  );
}

/** What the selected sheet took from the office's defaults, and where these are others today. */
async function comparedSheet(host: Host, engine: Engine, defaults: OfficeDefaults): Promise<readonly string[]> {
  const at = await host.selection();
  const recognised = at && (await engine.recognise(host, at.sheet));
  if (!recognised) return ["Select a cell of a sheet that was built here."];
  const { markedInputs } = await import("../../src/office/index.ts");
  const marked = markedInputs(recognised);
  const changes = defaults.changesOn(recognised.template, recognised.inputs, marked);
  const shown = (value: unknown): string => (value === null ? "nothing" : JSON.stringify(value));
  return [
    `${at.sheet}: ${marked.size} inputs marked “office”, ${changes.length} of them other than ${defaults.name}.`,
    ...changes.map(({ id, onSheet, now }) => `${id}: ${shown(onSheet)} on the sheet, ${shown(now)} in the defaults.`),
    ...defaults.remarksOn(recognised.template, recognised.inputs),
  ];
}
