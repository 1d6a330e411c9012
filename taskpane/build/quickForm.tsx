import { useEffect, useRef, useState } from "preact/hooks";
import type { Answers, SectionType } from "../../src/checker/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import { freeSheetName, isEn, isPost, rootId, withLogo, type InputSpec, type Template } from "../../src/sheet/index.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { SheetButton } from "../sheetButton.tsx";
import type { Office } from "./useOffice.ts";
import { useBuild } from "../useBuild.ts";
import { notBuilt } from "./outcome.ts";

interface Question {
  readonly id: string;
  readonly text: string;
  readonly unit?: string;
  readonly choices?: readonly { readonly value: string; readonly text: string }[];
  readonly hint?: string;
  /** May stay empty. */
  readonly open?: true;
}

const sections: NonNullable<Question["choices"]> = [
  { value: "RECTANGLE", text: "rectangle" },
  { value: "T", text: "T-section" },
  { value: "I", text: "I-section" },
  { value: "BOX", text: "box" },
];
const doubleTee = { value: "DOUBLE_TEE", text: "double tee, as one T with both webs together" };

/** The choices of an input of the template. */
function choicesOf(template: Template, id: string): NonNullable<Question["choices"]> {
  const items = template.blocks.flatMap(({ items: all }) => all);
  const specs = items.flatMap((item): readonly InputSpec[] =>
    "id" in item && item.id === id && item.input ? [item.input] : [],
  );
  return (specs[0]?.choices ?? []).map(({ value, text }) => ({ value: String(value), text: `${value} – ${text}` }));
}

const demandOf = (template: Template): string => (isEn(template) ? "exposure" : "memberType");

function questionsOf(template: Template): readonly Question[] {
  const post = isPost(template);
  const cube = rootId(template).includes("is1343");
  return [
    { id: "L", text: "Span", unit: "m" },
    { id: "section", text: "Section", choices: post ? sections : [...sections, doubleTee] },
    { id: "h", text: "Depth", unit: "mm" },
    { id: "fck", text: cube ? "Concrete, cube strength" : "Concrete, cylinder strength", unit: "MPa" },
    { id: "gs", text: "Superimposed permanent load", unit: "kN/m" },
    { id: "ql", text: "Variable load", unit: "kN/m" },
    {
      id: "demand",
      text: cube ? "Type of member by tension" : "Exposure",
      choices: choicesOf(template, demandOf(template)),
    },
    {
      id: "product",
      text: post ? "Strand, wire or bar" : "Strand or wire",
      choices: choicesOf(template, "product"),
      hint: post
        ? "A bar is a tendon by itself: straight, in a duct of its own."
        : `No bars: their transmission length is not given.${cube ? "" : " A wire is taken as indented; plain wire is not covered."}`,
    },
    { id: "tendons", text: `${post ? "Tendons" : "Strand rows"}; empty: find them`, open: true },
    { id: "strands", text: `Strands in each; empty: find them`, open: true },
  ];
}

const numeric: ReadonlySet<string> = new Set(["L", "h", "fck", "gs", "ql", "tendons", "strands"]);

/** What is wrong with a number, what is allowed, and what to do. */
export function refusal(text: string, answer: string, allowsZero: boolean): string {
  const allowed = allowsZero ? "0 or more" : "above 0";
  if (/^\d+,\d+$/.test(answer))
    return `${text} = “${answer}” has a decimal comma; type ${answer.replace(",", ".")} with a decimal point.`;
  const value = Number(answer);
  if (Number.isFinite(value)) return `${text} = ${answer} is not allowed; a number ${allowed} is needed.`;
  return `${text} = “${answer}” is not a number; a number ${allowed} is needed, with a decimal point.`;
}

/** What a proposal is not. */
const sizedFor =
  "Sized for stresses in service and while stressing alone: bending strength and shear are not part of it (linked sheet " +
  "Strength, where the standard has one), cover and spacing only once they are switched on.";

/** Depths of members from a sleeper to a box, mm; others are in another unit, as a rule. */
const depths = { least: 100, most: 10_000 };

/** What was answered; the words of what is wrong where it cannot be used. */
function answersOf(template: Template, typed: Readonly<Record<string, string>>): Answers | string {
  const out: Record<string, string | number> = {};
  for (const { id, text, open } of questionsOf(template)) {
    const answer = (typed[id] ?? "").trim();
    if (answer === "") {
      if (open) continue;
      return `${text} is empty: answer it.`;
    }
    if (!numeric.has(id)) {
      out[id] = id === "demand" && demandOf(template) === "memberType" ? Number(answer) : answer;
      continue;
    }
    const value = Number(answer);
    const allowsZero = id === "gs" || id === "ql";
    if (!Number.isFinite(value) || value < 0 || (value === 0 && !allowsZero)) return refusal(text, answer, allowsZero);
    if (id === "h" && (value < depths.least || value > depths.most))
      return `${text} = ${answer} mm is not allowed; it is to be in mm, from ${depths.least} to ${depths.most}.`;
    out[id] = value;
  }
  const { L, h, fck, gs, ql } = out;
  return {
    ...(out["tendons"] !== undefined && { tendons: Number(out["tendons"]) }),
    ...(out["strands"] !== undefined && { strands: Number(out["strands"]) }),
    L: Number(L),
    h: Number(h),
    fck: Number(fck),
    gs: Number(gs),
    ql: Number(ql),
    section: out["section"] as SectionType,
    demand: out["demand"]!,
    product: String(out["product"]),
  };
}

/** Ten questions beside method and standard, then a first verdict; what is not asked is assumed and marked so on the sheet. */
export function QuickForm({
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
  /** Its logo; what it gives inputs is none of the answers. */
  readonly office: Office;
  readonly finished: (built: Built) => void;
  readonly touch: () => void;
}) {
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [problem, setProblem] = useState("");
  const { step, cancel, run } = useBuild();
  const section = (typed["section"] || "I") as SectionType;
  const answered = answersOf(template, typed);
  // The same answers are prepared for once, whatever is shown anew meanwhile.
  const ready = typeof answered === "string" ? section : JSON.stringify(answered);
  const preparing = useRef<AbortController>();
  const building = step !== undefined;
  const built = useRef("");
  useEffect(() => {
    // What is being built goes first; once it stands, the same answers need no preparing.
    if (building || built.current === ready) return;
    const { signal } = (preparing.current = new AbortController());
    // What fails here fails again, with its message, when the answers are used.
    const known = typeof answered === "string" ? section : answered;
    engine.prepareQuickStart(template, known, signal).catch((error: unknown) => console.warn(error));
    return () => preparing.current?.abort();
  }, [engine, template, ready, building]);
  const put = (id: string, text: string): void => {
    touch();
    setTyped((t) => ({ ...t, [id]: text }));
    setProblem("");
  };
  const build = (event: Event): void => {
    event.preventDefault();
    if (step) return;
    const answers = answersOf(template, typed);
    if (typeof answers === "string") {
      setProblem(answers);
      return;
    }
    void run(
      "preparing the sheet",
      async ({ signal, progress }) => {
        setProblem("");
        // Other configurations are of no use any more.
        preparing.current?.abort();
        const answer = await engine.quickStart(template, answers);
        const { plan, marked } = await engine.quickStartSheet(template, answer);
        const sheetName = freeSheetName(template.title, await host.sheetNames());
        const { sheet } = await host.apply(withLogo(marked, office.defaults?.file.logo), {
          sheetName,
          progress,
          signal,
        });
        built.current = ready;
        const { proposal: found } = answer;
        const what = answer.unmet === undefined ? "Proposed" : "The nearest that was tried";
        const said =
          found === undefined
            ? []
            : [`${what} for a span of ${answers.L} m: ${found}.`, sizedFor, answer.sizedBy, answer.unmet];
        finished(rememberBuilt(plan, sheet, said.filter(Boolean).join(" ")));
      },
      (error) => setProblem(notBuilt("The sheet", "the answers are kept", error)),
    );
  };
  return (
    <form class="kb-form kb-quick" noValidate onSubmit={build}>
      <p class="kb-hint">
        Stresses with those of the web, losses and forces; no lifting, no detailing. What is not asked is assumed and
        marked “assumed” in the column “checked” of the sheet, until you type another value; initials in its place
        confirm it. The first page counts what is not confirmed.
      </p>
      {questionsOf(template).map((question) => (
        <div class="kb-field" key={question.id}>
          <label for={`kb-quick-${question.id}`}>{question.text}</label>
          <div class="kb-entry">
            <Answer question={question} value={typed[question.id] ?? ""} put={put} />
            {question.unit && <span class="kb-unit">{question.unit}</span>}
          </div>
          {question.hint && <p class="kb-hint">{question.hint}</p>}
        </div>
      ))}
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      <SheetButton
        id="kb-quick-progress"
        label="Show the first verdict"
        doing="Building the sheet"
        step={step}
        cancel={cancel}
      />
    </form>
  );
}

function Answer({
  question: { id, choices },
  value,
  put,
}: {
  readonly question: Question;
  readonly value: string;
  readonly put: (id: string, text: string) => void;
}) {
  if (choices)
    return (
      <select id={`kb-quick-${id}`} value={value} onChange={(e) => put(id, e.currentTarget.value)}>
        <option value="">choose</option>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.text}
          </option>
        ))}
      </select>
    );
  return (
    <input
      id={`kb-quick-${id}`}
      type="text"
      inputMode="decimal"
      autocomplete="off"
      spellcheck={false}
      value={value}
      onInput={(e) => put(id, e.currentTarget.value)}
    />
  );
}
