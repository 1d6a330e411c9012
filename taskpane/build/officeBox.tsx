import { useRef, useState } from "preact/hooks";
import { logoToTake, type Host } from "../../src/hosts/index.ts";
import type { OfficeDefaults } from "../../src/office/index.ts";
import type { Template } from "../../src/sheet/index.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { Problems } from "../problems.tsx";
import { chosenByName, problemsOf } from "./officeDefaults.ts";
import type { Office } from "./useOffice.ts";

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  readonly template: Template | undefined;
  readonly office: Office;
}

/** The defaults of the office: which file, what is chosen from it, and what a sheet has otherwise. */
export function OfficeBox({ host, engine, template, office }: Props) {
  const { defaults, isReading } = office;
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [said, setSaid] = useState<readonly string[]>([]);
  const opened = useRef(0);
  const open = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    const mine = (opened.current += 1);
    setSaid([]);
    setProblems([]);
    try {
      const bytes = await file.arrayBuffer();
      if (mine === opened.current) await office.take(bytes);
    } catch (error) {
      if (mine !== opened.current) return;
      setProblems([`${file.name} was not taken; the defaults are as they were.`, ...problemsOf(error)]);
    }
  };
  const choose = (what: "duct" | "jack", name: string): void => {
    if (defaults) office.choose(chosenByName(defaults, what, name));
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
      <summary>
        Office defaults: {isReading ? "being read …" : (defaults?.name ?? "none")}
        {!isReading && defaults && (office.from === "served" ? ", from the office’s address" : ", from a file")}
      </summary>
      <p class="kb-hint">
        One file of the office (JSON) with national factors, materials in stock, ducts, jacks, title block and logo. It
        fills the inputs below, and the sheet marks them “office”. A file chosen here is kept in this browser and goes
        before the one that the office may serve with the add-in.
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
        {(defaults || isReading || office.refused.length > 0) && (
          <button
            type="button"
            onClick={() => {
              opened.current += 1;
              office.useNone();
            }}
          >
            Use none
          </button>
        )}{" "}
        {office.from !== "served" && !isReading && (
          <button
            type="button"
            onClick={() => {
              opened.current += 1;
              office.useServed();
            }}
          >
            Use those that the office serves
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
                disabled={isReading}
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
      {defaults?.file.logo && (
        <p>
          <img
            class="kb-logo"
            src={defaults.file.logo.image}
            alt={defaults.file.logo.text ?? "Logo of the office"}
            style={{ width: `${defaults.file.logo.width}mm` }}
          />
        </p>
      )}
      {template && defaults && (
        <>
          <p class="kb-hint">
            {used.length === 0 ? "This template takes none of them." : `Fills: ${used.join(", ")}.`}
          </p>
          {defaults.originsIn(template, defaults.inputsFor(template)).map((origin) => (
            <p class="kb-hint" key={origin}>
              Entered by the office: {origin}
            </p>
          ))}
        </>
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
      {defaults && <Problems texts={defaults.doubts} />}
    </details>
  );
}

/** What the selected sheet took from the office's defaults, and where these are others today. */
export async function comparedSheet(
  host: Host,
  { recognise }: Pick<Engine, "recognise">,
  defaults: OfficeDefaults,
): Promise<readonly string[]> {
  const at = await host.selection();
  const recognised = at && (await recognise(host, at.sheet));
  if (!recognised) return ["Select a cell of a sheet that was built here."];
  const { markedInputs } = await import("../../src/office/index.ts");
  const marked = markedInputs(recognised);
  const changes = defaults.changesOn(recognised.template, recognised.inputs, marked);
  const { logo, without } = defaults.file.logo ? await logoToTake(host, at.sheet) : { without: "" };
  const shown = (value: unknown): string => (value === null ? "nothing" : JSON.stringify(value));
  return [
    `${at.sheet}: ${marked.size} inputs taken from the office, ${changes.length} of them other than ${defaults.name}.`,
    ...changes.map(({ id, onSheet, now }) => `${id}: ${shown(onSheet)} on the sheet, ${shown(now)} in the defaults.`),
    ...(defaults.file.logo && !logo ? [without || "The defaults have a logo; the sheet has none."] : []),
    ...defaults.remarksOn(recognised.template, recognised.inputs),
  ];
}
