import { allowedText, basisText, coherentUnit, ownCopyAdvice, readFactor, sources, type Argument, type Formula, type Parameter, type Table, type Trace } from "../../src/core/index.ts";
import { worksheetFunctions } from "../../functions/index.ts";
import type { Place } from "../../src/hosts/index.ts";
import { equationTex, hasSymbol, numberText, substitutionTex, withUnit } from "../../src/typeset/index.ts";
import { ReferenceLink } from "../reference/openReference.tsx";
import { Equation } from "./equation.tsx";
import type { TracedCall, TracedOrigin } from "./inspect.ts";
import type { Libraries } from "./libraries.ts";
import { agreement, evaluateSteps, relativeDifference } from "../../src/checker/trace/secondEvaluation.ts";
import { OriginLink } from "./originLink.tsx";
import { Sentence, TradeSymbol } from "./tradeSymbol.tsx";

interface Props {
  readonly traced: TracedCall;
  readonly from: string;
  readonly go: (to: Place) => void;
  readonly libraries: Libraries | undefined;
}

/** One call of ours, from its arguments to its result. */
export function CallTrace({ traced, go, libraries }: Props) {
  const { formula, trace, refused } = traced;
  if (!formula) return <WithoutFormula traced={traced} go={go} />;
  return <article class="kb-call" aria-label={`KERN.${formula.id}`}>
    <h3><FunctionName id={formula.id} /></h3>
    <p><Sentence of={formula.summary} />. <ReferenceLink id={formula.id} /></p>
    {refused && <p class="kb-problem"><strong>No result.</strong> {refused.message}.</p>}
    <h4>Arguments</h4>
    <ol class="kb-arguments">
      {Object.entries(formula.params).map(([name, parameter], i) => <ArgumentRow key={name} name={name} parameter={parameter} origin={traced.arguments[i]} trace={trace} atFault={refused?.parameter === name} go={go} />)}
    </ol>
    {trace && <Calculation traced={traced} trace={trace} libraries={libraries} />}
    <SourceOf formula={formula} />
    {formula.notes && <section><h4>Definitions and signs</h4><ul>{formula.notes.map((n) => <li key={n}><Sentence of={n} /></li>)}</ul></section>}
  </article>;
}

/** A long name breaks before an underscore, not inside a word or a year. */
function FunctionName({ id }: { readonly id: string }) {
  return <>KERN.{id.split("_").map((part, i) => (i === 0 ? part : <><wbr />_{part}</>))}</>;
}

/** A function about the workbook itself, or one that is not known here. */
function WithoutFormula({ traced: { call, arguments: all }, go }: { readonly traced: TracedCall; readonly go: (to: Place) => void }) {
  const known = worksheetFunctions.find((f) => f.id === call.id);
  if (!known) return <p class="kb-problem">This Kernbook has no function KERN.{call.id}. The sheet may come from a newer version.</p>;
  return <article class="kb-call" aria-label={`KERN.${call.id}`}>
    <h3><FunctionName id={call.id} /></h3>
    <p><Sentence of={known.summary} />. <ReferenceLink id={call.id} /></p>
    <h4>Arguments</h4>
    <ol class="kb-arguments">{all.map((a, i) => <li key={i}>{a.origin ? <OriginLink origin={a.origin} go={go} /> : <code>{a.written.text || "not given"}</code>} {a.origin?.meaning?.description}</li>)}</ol>
  </article>;
}

function given(value: Argument, parameter: Parameter): string {
  if (value === null || value === undefined || value === "") return "empty";
  if (typeof value === "number") return parameter.kind === "number" ? withUnit(value, parameter.unit) : numberText(value);
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "string") return `“${value}”`;
  return `${value.length} × ${value[0]?.length ?? 0} cells`;
}

function ArgumentRow({ name, parameter, origin, trace, atFault, go }: { readonly name: string; readonly parameter: Parameter; readonly origin: TracedOrigin | undefined; readonly trace: Trace | undefined; readonly atFault: boolean; readonly go: (to: Place) => void }) {
  const traced = trace?.arguments.find((a) => a.name === name);
  const isDefault = traced?.isDefault === true;
  const value = isDefault ? traced.given : origin?.value ?? null;
  const meaning = origin?.origin?.meaning;
  const chosen = parameter.kind === "choice" ? parameter.values.find((v) => v.value === traced?.value)?.text : undefined;
  return <li class={atFault ? "kb-at-fault" : undefined}>
    <div class="kb-argument"><span><TradeSymbol of={parameter.symbol} /> <Sentence of={parameter.text} /></span> <b>{parameter.kind === "table" && !(value === null) && Array.isArray(value) ? `${value.length} row${value.length === 1 ? "" : "s"}` : given(value, parameter)}{chosen && ` (${chosen})`}</b></div>
    <div class="kb-from">
      {isDefault && <span class="kb-tag">default</span>}
      {atFault && <span class="kb-tag kb-tag-bad">refused</span>}
      {!isDefault && origin?.origin && <><OriginLink origin={origin.origin} go={go} />{origin.written.kind === "reference" && origin.written.named && <> <code>{origin.written.text}</code></>} {meaning && <>{meaning.item} {meaning.description}</>}</>}
      {!isDefault && origin?.written.kind === "literal" && "typed in the formula"}
      {!isDefault && origin && !origin.origin && origin.written.kind !== "literal" && origin.written.kind !== "missing" && <>from <code>{origin.written.text}</code></>}
      {!isDefault && (!origin || origin.written.kind === "missing") && "not given"}
    </div>
    {parameter.kind === "number" && <Ranges allowed={allowedText(parameter)} typical={parameter.typical ? allowedText({ unit: parameter.unit, min: parameter.typical[0], max: parameter.typical[1] }) : ""} />}
    {parameter.kind === "choice" && <details><summary>Choices</summary><ul>{parameter.values.map((v) => <li key={v.value}><code>{v.value}</code> {v.text}</li>)}</ul></details>}
    {parameter.kind === "table" && <Records parameter={parameter} value={value} name={name} />}
  </li>;
}

function Ranges({ allowed, typical }: { readonly allowed: string; readonly typical: string }) {
  if (!allowed && !typical) return null;
  return <div class="kb-from">{allowed && `allowed ${allowed}`}{allowed && typical && "; "}{typical && `usually ${typical}`}</div>;
}

function Records({ parameter, value, name }: { readonly parameter: Table; readonly value: Argument; readonly name: string }) {
  const rows = Array.isArray(value) ? value as readonly (readonly (number | string | boolean | null | undefined)[])[] : [];
  if (rows.length === 0) return null;
  const columns = Object.values(parameter.columns);
  return <div class="kb-scroll" tabIndex={0} role="group" aria-label={`Values of ${parameter.text}`}>
    <table class="kb-table" id={`kb-range-${name}`}>
      <thead><tr>{columns.map((c) => <th key={c.key} scope="col" title={c.text}>{hasSymbol(c.symbol) ? <TradeSymbol of={c.symbol} /> : c.text}{c.kind === "number" && c.unit !== "–" && <> <small>{c.unit}</small></>}</th>)}</tr></thead>
      <tbody>{rows.map((row, r) => <tr key={r}>{row.map((cell, c) => <td key={c}>{typeof cell === "number" ? numberText(cell) : cell === null || cell === undefined ? "–" : String(cell)}</td>)}</tr>)}</tbody>
    </table>
  </div>;
}

function Calculation({ traced, trace, libraries }: { readonly traced: TracedCall; readonly trace: Trace; readonly libraries: Libraries | undefined }) {
  const { formula, arguments: all } = trace;
  const conversions = all.filter((a) => a.conversion !== undefined);
  const known: Record<string, unknown> = { ...trace.values, ...Object.fromEntries(trace.steps.map((s) => [s.name, s.value])) };
  const several = trace.steps.length > 1;
  return <section>
    <h4>{several ? "Steps" : "Equation"}</h4>
    {conversions.length > 0 && <ul class="kb-conversions" aria-label="Conversions">{conversions.map((a) => <li key={a.name}><TradeSymbol of={a.parameter.symbol} /> {a.conversion}</li>)}</ul>}
    <ol class="kb-steps">
      {trace.steps.map(({ name, step, value, shown }, i) => {
        const reads = step.reads ?? coherentUnit(step.unit);
        const converted = readFactor(step) !== 1;
        const last = i === trace.steps.length - 1;
        return <li key={name} class={last ? "kb-last" : undefined}>
          {several && (step.text || step.clause) && <div class="kb-from">{step.text && <Sentence of={step.text} />}{step.clause && <span class="kb-clause"> {step.clause}</span>}</div>}
          {"lookup" in step ? <LookUp of={formula.params[step.lookup.of]?.text ?? formula.steps[step.lookup.of]?.text ?? step.lookup.of} />
            : <Equation libraries={libraries} plain={"equation" in step ? step.equation : step.governing} tex={libraries ? equationTex(libraries.math, formula, name) : ""} />}
          {"equation" in step && libraries && <Equation libraries={libraries} plain={`numbers put in: ${withUnit(value, reads)}`} tex={`= ${substitutionTex(libraries.math, formula, name, known)}`} />}
          <div class="kb-stepvalue"><TradeSymbol of={step.symbol} /> = <b>{withUnit(value, reads)}</b>{converted && <> = <b>{withUnit(shown, step.unit)}</b></>}</div>
        </li>;
      })}
    </ol>
    <Result traced={traced} trace={trace} />
    {libraries && <Second trace={trace} known={known} libraries={libraries} />}
  </section>;
}

function LookUp({ of }: { readonly of: string }) {
  return <div class="kb-from">read from the table by {of}</div>;
}

function Result({ traced: { hosts, call }, trace }: { readonly traced: TracedCall; readonly trace: Trace }) {
  const { result } = trace.formula;
  const where = call.whole ? "the cell" : "the spreadsheet";
  const same = typeof hosts?.value === "number" ? relativeDifference(hosts.value, trace.result) : undefined;
  return <div class="kb-result">
    <p>Result <strong>{withUnit(trace.result, result.unit)}</strong>{same !== undefined && same <= agreement && ` – ${where} holds the same value.`}</p>
    {same === undefined && <p class="kb-problem">{call.whole ? "The cell" : "The spreadsheet"} shows {hosts?.error?.code ?? (hosts?.text || "nothing")} in its place. Recalculate the sheet.</p>}
    {same !== undefined && same > agreement && <p class="kb-problem">{call.whole ? "The cell" : "The spreadsheet"} holds {numberText(hosts!.value as number)} instead: it was not recalculated since its inputs changed, or it was made by another version.</p>}
  </div>;
}

/** The displayed equations evaluated apart from the function that the worksheet runs. */
function Second({ trace, known, libraries }: { readonly trace: Trace; readonly known: Readonly<Record<string, unknown>>; readonly libraries: Libraries }) {
  const { formula } = trace;
  let second: Readonly<Record<string, number>> | undefined;
  let failure = "";
  try {
    second = evaluateSteps(libraries.math, formula, trace.values);
  } catch (problem) {
    failure = problem instanceof Error ? problem.message : String(problem);
  }
  const inWords = trace.steps.filter((s) => "governing" in s.step);
  const compared = trace.steps.filter((s) => !("governing" in s.step));
  const worst = second ? Math.max(0, ...compared.map((s) => relativeDifference(second[s.name]!, known[s.name] as number))) : 0;
  return <section class="kb-second">
    <h4>Second evaluation</h4>
    {failure ? <p class="kb-problem">The displayed equations could not be evaluated: {failure}.</p> : compared.length > 0 && (worst <= agreement
      ? <p><span class="kb-tag kb-tag-good">agrees</span> The displayed {compared.length > 1 ? "equations give" : "equation gives"} {withUnit(second![compared.at(-1)!.name]!, compared.at(-1)!.step.reads ?? coherentUnit(compared.at(-1)!.step.unit))}; greatest relative difference {numberText(worst)}.</p>
      : <p class="kb-problem"><span class="kb-tag kb-tag-bad">disagrees</span> The displayed equations and the function differ by {numberText(worst)} relative. Do not use this value.</p>)}
    {inWords.length > 0 && trace.proof !== undefined && <p><span class={`kb-tag ${Math.abs(trace.proof) <= agreement ? "kb-tag-good" : "kb-tag-bad"}`}>{Math.abs(trace.proof) <= agreement ? "agrees" : "disagrees"}</span> Of {inWords.map((s, i) => <>{i > 0 && ", "}<TradeSymbol of={s.step.symbol} /></>)} the governing equation leaves a relative residual of {numberText(trace.proof)}.</p>}
    <p class="kb-from">This shows that display and function say the same, not that the equation fits your case.</p>
  </section>;
}

function SourceOf({ formula: { source } }: { readonly formula: Formula }) {
  const standard = source.basis !== "derived";
  return <section class="kb-source">
    <h4>Source</h4>
    <p><cite>{sources[source.key]}</cite>{source.clause && <> Clause {source.clause}.</>}</p>
    <p>Basis: {basisText[source.basis]}{source.readIn && <>, in <cite>{sources[source.readIn]}</cite></>}{standard && <> {ownCopyAdvice}</>}</p>
  </section>;
}
