import { useEffect, useMemo, useState } from "preact/hooks";
import type { Host, SheetNameTaken } from "../../src/hosts/index.ts";
import { freeSheetName, type Template } from "../../src/sheet/index.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { SheetButton } from "../sheetButton.tsx";
import { isCancelled, useBuild } from "../useBuild.ts";
import { FieldInput, Group, inputElement } from "./fieldInput.tsx";
import {
  allProblems,
  fieldGroups,
  inputValues,
  keyOf,
  problemOfName,
  shapeFields,
  shapeValues,
  typedDefaults,
  typedExample,
  typedInputs,
  type Typed,
} from "./fields.ts";
import { isLeft, namesWith } from "./outcome.ts";
import { waitsForOffice, type Office } from "./useOffice.ts";

/** By name, since the class comes from whichever host is in use. */
const nameTaken = (error: unknown): error is SheetNameTaken =>
  error instanceof Error && error.name === "SheetNameTaken";

/** From the inputs of a template, one by one, to a sheet. */
export function TemplateForm({
  host,
  engine,
  template,
  office,
  finished,
  touch,
}: {
  readonly host: Host;
  readonly engine: Engine;
  readonly template: Template;
  readonly office: Office;
  readonly finished: (built: Built) => void;
  readonly touch: () => void;
}) {
  const { defaults, isReading } = office;
  const [byHand, setTyped] = useState<Typed>({});
  // What the office gives stands where nobody typed anything else.
  const typed = useMemo(() => {
    const usual = { ...typedDefaults(template), ...byHand };
    if (!defaults) return usual;
    const inputs = defaults.inputsFor(template);
    const shaped = {
      ...typedDefaults(template),
      ...typedInputs(template, shapeValues(template, usual), inputs),
      ...byHand,
    };
    return { ...usual, ...typedInputs(template, shapeValues(template, shaped), inputs), ...byHand };
  }, [template, defaults, byHand]);
  const [invented, setInvented] = useState(false);
  const [name, setName] = useState(() => freeSheetName(template.title, []));
  const [taken, setTaken] = useState<readonly string[]>([]);
  const [failure, setFailure] = useState<readonly string[]>([]);
  const { step, cancel, run } = useBuild();

  useEffect(() => {
    let live = true;
    host.sheetNames().then(
      (names) => {
        if (!live) return;
        setTaken(names);
        setName((n) => freeSheetName(n, names));
      },
      (error: unknown) => {
        if (live) setFailure([`The workbook's sheets could not be listed: ${whyNot(error)}`]);
      },
    );
    return () => {
      live = false;
    };
  }, [host]);

  const shape = useMemo(() => shapeValues(template, typed), [template, typed]);
  const groups = useMemo(() => fieldGroups(template, shape), [template, shape]);
  const problems = useMemo(() => allProblems(template, typed), [template, typed]);
  const nameProblem = problemOfName(name, taken);
  const put = (key: string, text: string): void => {
    touch();
    setTyped((t) => ({ ...t, [key]: text }));
  };
  const form = { typed, problems, put };

  const build = (event: Event): void => {
    event.preventDefault();
    if (step || isReading) return;
    const wrong = [...problems.keys()][0];
    if (wrong !== undefined || nameProblem !== undefined) {
      setFailure([
        `${problems.size + (nameProblem ? 1 : 0)} input${problems.size + (nameProblem ? 1 : 0) === 1 ? " needs" : "s need"} ` +
          "correction before the sheet can be built:",
        ...[...problems.values()].slice(0, 5),
        ...(nameProblem ? [nameProblem] : []),
      ]);
      (wrong === undefined ? document.getElementById("kb-sheet-name") : inputElement(wrong))?.focus();
      return;
    }
    const sheetName = name.trim();
    void run(
      "preparing the sheet",
      async ({ signal, progress }) => {
        setFailure([]);
        const plan = await engine.expand(template, inputValues(template, typed));
        const conflicts = await engine.conflictsIn(plan);
        if (conflicts.length > 0) {
          setFailure([
            "Inputs contradict each other; the sheet was not built. Correct one of each:",
            ...conflicts.map(({ message }) => message),
          ]);
          const { id, index } = conflicts[0]!.of[0]!;
          inputElement(keyOf(groups, id, index))?.focus();
          return;
        }
        const { sheet } = await host.apply(defaults?.planned(plan, template) ?? plan, { sheetName, progress, signal });
        rememberBuilt(plan, sheet);
        finished({ sheet, plan });
        const names = await namesWith(host, taken, sheet);
        setTaken(names);
        setName(freeSheetName(template.title, names));
      },
      failed,
    );
  };
  const failed = (error: unknown): void => {
    if (nameTaken(error)) {
      setTaken((t) => [...t, error.sheetName]);
      setFailure([error.message]);
    } else if (isCancelled(error)) {
      setFailure(["Building was cancelled. No sheet was left in the workbook; the inputs are kept."]);
    } else {
      const messages =
        error instanceof Error && "problems" in error && Array.isArray(error.problems)
          ? (error.problems as readonly string[])
          : [whyNot(error)];
      setFailure([
        isLeft(error)
          ? "The sheet was not built, and part of it is still in the workbook; the inputs are kept. What to do:"
          : "The sheet was not built and nothing was left in the workbook; the inputs are kept. What to correct:",
        ...messages,
      ]);
    }
  };

  return (
    <form class="kb-form" noValidate onSubmit={build}>
      <p class="kb-standard">{template.standard}</p>
      <p>
        <button
          type="button"
          onClick={() => {
            touch();
            setTyped(typedExample(template));
            setInvented(true);
            setName(freeSheetName(template.example.name, taken));
          }}
        >
          Fill with the invented example
        </button>{" "}
        <span class="kb-hint">{template.example.note}</span>
      </p>
      {invented && (
        <p class="kb-invented" role="status">
          The inputs are an invented example. Replace them with your own before using any result.
        </p>
      )}
      <fieldset class="kb-shape">
        <legend>Shape of the sheet</legend>
        <p class="kb-hint">
          These decide which rows the sheet has. On the sheet they are locked; to change them, build again.
        </p>
        {shapeFields(template).map((f) => (
          <FieldInput key={f.id} field={f} {...form} />
        ))}
      </fieldset>
      <h2>Inputs</h2>
      <p class="kb-hint">
        All of them can be changed on the sheet later. What stays empty, the sheet asks for: until then its verdict is
        INCOMPLETE.
      </p>
      {groups.map((g, i) => (
        <Group key={`${g.title} ${i}`} group={g} open={i === 1} {...form} />
      ))}
      <div class="kb-field">
        <label for="kb-sheet-name">Name of the new sheet</label>
        <input
          id="kb-sheet-name"
          type="text"
          value={name}
          autocomplete="off"
          spellcheck={false}
          aria-invalid={nameProblem ? "true" : "false"}
          aria-describedby="kb-sheet-name-problem"
          onInput={(e) => {
            touch();
            setName(e.currentTarget.value);
          }}
        />
        <div id="kb-sheet-name-problem" class="kb-problem" aria-live="polite">
          {nameProblem}
        </div>
      </div>
      <div role="alert">
        {failure.length > 0 && (
          <div class="kb-failure">
            <p>{failure[0]}</p>
            {failure.length > 1 && (
              <ul>
                {failure.slice(1).map((f) => (
                  <li key={f}>{f}</li>
                ))}
              </ul>
            )}
          </div>
        )}
      </div>
      {isReading && (
        <p class="kb-hint" role="status">
          {waitsForOffice}
        </p>
      )}
      <SheetButton
        id="kb-progress"
        label="Build the sheet"
        doing="Building the sheet"
        step={step}
        disabled={isReading}
        cancel={cancel}
      />
    </form>
  );
}
