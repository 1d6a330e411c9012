import { useEffect, useRef, useState } from "preact/hooks";
import type { Address } from "../../src/cells/index.ts";
import { compare, type Comparison } from "../../src/checker/index.ts";
import { logoToTake, type Host, type LogoToTake } from "../../src/hosts/index.ts";
import {
  draftTemplate,
  readTemplate,
  refusedFor,
  templateText,
  type KeptSheet,
  type Refusal,
} from "../../src/office/index.ts";
import type { WhichConfigurations } from "../../src/sheet/index.ts";
import { problemsOf } from "../build/officeDefaults.ts";
import { useSheet } from "../check/useSheet.ts";
import { whyNot } from "../loading.ts";
import { saveText } from "../paper/print.ts";
import { TextToCopy } from "../paper/textToCopy.tsx";
import { Problems } from "../problems.tsx";
import { SheetButton } from "../sheetButton.tsx";
import { isCancelled, useBuild } from "../useBuild.ts";
import { WorkButton } from "../workButton.tsx";
import { aboutOf, fileOf, firstAbout, lockables, problemsOfAbout, type TypedAbout } from "./aboutTemplate.ts";
import { checkInSteps } from "./check.ts";
import { NotATemplates } from "./notATemplates.tsx";
import { takeTemplate } from "./reading.ts";
import { TickList } from "./tickList.tsx";
import { RefusalList, UnderstoodList } from "./understoodList.tsx";

/** A sheet as it was read to become a template. */
interface Read {
  readonly sheet: string;
  readonly comparison: Comparison;
  readonly formats: readonly (readonly string[])[];
  readonly taken: LogoToTake;
}

/** A template's file. */
interface Made {
  readonly text: string;
  readonly file: string;
}

/** Undefined where no template known here built the sheet. */
async function readSheet(host: Host, sheet: string): Promise<Read | undefined> {
  const comparison = await compare(host, sheet);
  if (!comparison) return undefined;
  const { rows, columns } = comparison.recognised.snapshot;
  const { formats } = await host.looks(sheet, { row: 0, column: 0, rows, columns });
  return { sheet, comparison, formats, taken: await logoToTake(host, sheet) };
}

const fields: readonly { readonly key: keyof TypedAbout; readonly label: string; readonly hint: string }[] = [
  { key: "name", label: "Title of the template", hint: "as lists of templates show it" },
  { key: "id", label: "Id of the template", hint: "small letters, digits and “-”; sheets and files name it by this" },
  { key: "version", label: "Version of the template", hint: "three numbers; a higher one with every change" },
  { key: "office", label: "Office that answers for it", hint: "or the person" },
];

/** From a built sheet that was changed by hand to the file of a template. */
export function KeepForm({ host }: { readonly host: Host }) {
  const { sheet, problem: selection } = useSheet(host);
  const [read, setRead] = useState<Read>();
  const [unknown, setUnknown] = useState<string>();
  const [understood, setUnderstood] = useState<KeptSheet>();
  const [typed, setTyped] = useState<TypedAbout>();
  const [locked, setLocked] = useState<ReadonlySet<string>>(new Set());
  const [defaults, setDefaults] = useState<ReadonlySet<string>>(new Set());
  const [which, setWhich] = useState<WhichConfigurations>("usual");
  const [busy, setBusy] = useState(false);
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [refused, setRefused] = useState<readonly Refusal[]>([]);
  const [made, setMade] = useState<Made & { readonly checked: WhichConfigurations }>();
  const { step, cancel, run } = useBuild();
  const forget = (): void => {
    setProblems([]);
    setRefused([]);
    setMade(undefined);
  };
  const open = async (name: string): Promise<void> => {
    setBusy(true);
    forget();
    setUnknown(undefined);
    try {
      const now = await readSheet(host, name);
      setRead(now);
      if (!now) setUnknown(name);
      else {
        const { recognised } = now.comparison;
        const about = firstAbout(recognised);
        setTyped(about);
        setLocked(new Set(recognised.template.locked));
        setDefaults(new Set());
        setUnderstood(
          draftTemplate(now.comparison, { ...aboutOf(about, new Set(), new Set()), ...now.taken }, now.formats),
        );
      }
    } catch (error) {
      setRead(undefined);
      setProblems([`The sheet could not be read: ${whyNot(error)}.`]);
    }
    setBusy(false);
  };
  const put = (key: keyof TypedAbout, text: string): void => {
    setTyped((now) => now && { ...now, [key]: text });
    forget();
  };
  const wrong = read && typed ? problemsOfAbout(typed, read.comparison.recognised) : {};
  const make = (event: Event): void => {
    event.preventDefault();
    if (!read || !typed) return;
    const first = fields.find(({ key }) => wrong[key] !== undefined);
    if (first) {
      setProblems(Object.values(wrong));
      document.getElementById(`kb-keep-${first.key}`)?.focus();
      return;
    }
    void run(
      "reading the sheet",
      async ({ signal, progress }) => {
        forget();
        // As it is now: it may have been changed since it was shown.
        const now = await readSheet(host, read.sheet);
        signal.throwIfAborted();
        if (!now) {
          setRead(undefined);
          setUnknown(read.sheet);
          return;
        }
        setRead(now);
        const about = { ...aboutOf(typed, locked, defaults), ...now.taken };
        const draft = draftTemplate(now.comparison, about, now.formats);
        setUnderstood(draft);
        if (!draft.template) {
          setRefused(draft.refused);
          return;
        }
        progress(0, 0, "checking the template");
        const found = await checkInSteps(draft.template, which, {
          signal,
          progress: (done, of) => progress(done, of, `checking the template, configuration ${done} of ${of} done`),
        });
        const checked = refusedFor(draft, found);
        if (!checked.template) {
          setRefused(checked.refused);
          return;
        }
        const text = templateText(checked.template);
        // What is saved can be read again.
        await readTemplate(text, { checked: true });
        setMade({ text, file: fileOf(typed), checked: which });
      },
      (error) =>
        setProblems(
          isCancelled(error)
            ? ["Cancelled. No template was made; the sheet is as it was."]
            : ["No template was made:", ...problemsOf(error)],
        ),
    );
  };
  const go = (at: Address): void =>
    void host
      .select({ sheet: read!.sheet, row: at.row, column: at.column })
      .catch((error: unknown) => setProblems([`The cell could not be selected: ${whyNot(error)}.`]));
  const way = read && { sheet: read.sheet, go };
  return (
    <>
      <p class="kb-hint">
        Change a built sheet by hand: texts, units, limits, formulas, rows added, moved or deleted. A template made of
        it builds such sheets anew. Work on a copy of the sheet, since its protection has to come off first.
      </p>
      {host.unprotect && <Unprotect host={host} sheet={sheet} />}
      <Problems texts={selection === "" ? [] : [selection]} />
      <p>
        <WorkButton
          busy={busy || step !== undefined}
          disabled={sheet === undefined}
          act={() => {
            if (sheet !== undefined) void open(sheet);
          }}
        >
          {sheet === undefined ? "Select a cell of the sheet" : `Read “${sheet}”`}
        </WorkButton>
      </p>
      <p class="kb-hint" role="status">
        {busy ? "Reading the sheet …" : ""}
      </p>
      {unknown !== undefined && (
        <NotATemplates id="keep" host={host} sheet={unknown} again={() => void open(unknown)} />
      )}
      {read && understood && typed && way && (
        <form class="kb-form kb-keep" noValidate onSubmit={make}>
          <h3>{read.sheet}</h3>
          <p class="kb-hint">
            Of the template {read.comparison.recognised.template.id} {read.comparison.recognised.head.templateVersion}.
          </p>
          <UnderstoodList rows={understood.rows} {...way} />
          <RefusalList refused={refused.length > 0 || made ? refused : understood.refused} {...way} />
          {/* What is made is what was entered when the check began. */}
          <fieldset class="kb-entries" disabled={step !== undefined}>
            {fields.map(({ key, label, hint }) => (
              <div class="kb-field kb-newname" key={key}>
                <label for={`kb-keep-${key}`}>{label}</label>
                <input
                  id={`kb-keep-${key}`}
                  type="text"
                  value={typed[key]}
                  autocomplete="off"
                  spellcheck={false}
                  aria-invalid={wrong[key] !== undefined && problems.length > 0 ? "true" : "false"}
                  aria-describedby={`kb-keep-${key}-hint`}
                  onInput={(event) => put(key, event.currentTarget.value)}
                />
                <div id={`kb-keep-${key}-hint`} class="kb-hint">
                  {hint}
                </div>
              </div>
            ))}
            <TickList
              id="kb-keep-locked"
              title="Locked rows"
              hint="On new sheets they cannot be changed without taking off the protection; Compare lists such changes as serious."
              all={lockables(read.comparison.recognised, understood)}
              ticked={locked}
              tick={(next) => {
                setLocked(next);
                forget();
              }}
            />
            <TickList
              id="kb-keep-defaults"
              title="Values that become defaults"
              hint="Inputs of this sheet that differ from the template's default. All values of the sheet become its example."
              all={understood.inputs.map(({ id, text, value }) => ({ id, text: `${text} = ${value}` }))}
              ticked={defaults}
              tick={(next) => {
                setDefaults(next);
                forget();
              }}
            />
            <fieldset class="kb-ways">
              <legend>Checked before it is saved</legend>
              <label>
                <input
                  type="radio"
                  name="kb-keep-check"
                  checked={which === "usual"}
                  onChange={() => setWhich("usual")}
                />
                <span>the configuration of this sheet and the default one: takes seconds</span>
              </label>
              <label>
                <input type="radio" name="kb-keep-check" checked={which === "all"} onChange={() => setWhich("all")} />
                <span>every kind of configuration: takes minutes</span>
              </label>
            </fieldset>
          </fieldset>
          <Problems texts={problems} />
          <SheetButton
            id="kb-keep-progress"
            label="Make the template"
            doing="Making the template"
            step={step}
            disabled={busy}
            cancel={cancel}
          />
          {made && <MadeTemplate key={made.text} made={made} checked={made.checked} />}
        </form>
      )}
      {!read && <Problems texts={problems} />}
    </>
  );
}

/** For a host without a command of its own for it. */
function Unprotect({ host, sheet }: { readonly host: Host; readonly sheet: string | undefined }) {
  const [said, setSaid] = useState("");
  const take = async (name: string): Promise<void> => {
    try {
      await host.unprotect!(name);
      setSaid(`The protection of “${name}” is off: its formulas can be typed over now. Compare says so.`);
    } catch (error) {
      setSaid(`The protection could not be taken off: ${whyNot(error)}.`);
    }
  };
  return (
    <>
      <p>
        <button
          type="button"
          disabled={sheet === undefined}
          onClick={() => {
            if (sheet !== undefined) void take(sheet);
          }}
        >
          Take off the protection{sheet === undefined ? "" : ` of “${sheet}”`}
        </button>
      </p>
      <p class="kb-hint" role="status">
        {said}
      </p>
    </>
  );
}

/** The file of a template: to save, and to load here at once. */
function MadeTemplate({ made, checked }: { readonly made: Made; readonly checked: WhichConfigurations }) {
  const [saved, setSaved] = useState(false);
  const [said, setSaid] = useState("");
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [busy, setBusy] = useState(false);
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => place.current?.querySelector("button")?.focus(), []);
  const save = (): void => {
    try {
      saveText(made.text, made.file, "application/json");
      setProblems([]);
    } catch (error) {
      setProblems([`Saving did not work: ${whyNot(error)}. The text below can be copied into a file of your own.`]);
    }
    setSaved(true);
  };
  const load = async (): Promise<void> => {
    setBusy(true);
    setProblems([]);
    try {
      const { signal } = new AbortController();
      const notKept = await takeTemplate(made.file, made.text, { signal, progress: () => undefined, checked: true });
      setSaid(notKept ?? "It is loaded, kept in this browser, and in the list of templates above.");
    } catch (error) {
      setProblems(["It was not loaded:", ...problemsOf(error)]);
    }
    setBusy(false);
  };
  return (
    <div class="kb-done" ref={place}>
      <p role="status">
        The template is made: {made.file}, {Math.ceil(made.text.length / 1000)} kB.{" "}
        {checked === "usual"
          ? "Checked in the configuration of this sheet and the default one; others are checked when a sheet of them is " +
            "built."
          : "Checked in every kind of configuration."}
      </p>
      <div class="kb-pick">
        <button type="button" onClick={save}>
          Save the file
        </button>
        <WorkButton busy={busy} act={() => void load()}>
          Load it here
        </WorkButton>
      </div>
      {saved && <TextToCopy text={made.text} fileName={made.file} open={problems.length > 0} />}
      <p role="status">{said}</p>
      <Problems texts={problems} />
    </div>
  );
}
