import {
  basisText,
  coherentUnit,
  equationFor,
  ownCopyAdvice,
  readFactor,
  sourceFor,
  sources,
  type Source,
  type Trace,
} from "../../src/core/index.ts";
import { worksheetFunctions } from "../../functions/index.ts";
import { agreement, evaluateSteps, relativeDifference, type TracedCall } from "../../src/checker/index.ts";
import type { Place } from "../../src/hosts/index.ts";
import { clauseWords, equationTex, numberText, substitutionTex, withUnit } from "../../src/typeset/index.ts";
import { whyNot } from "../loading.ts";
import { ReferenceLink } from "../reference/openReference.tsx";
import { CallArguments } from "./callArguments.tsx";
import { Equation } from "./equation.tsx";
import type { Libraries } from "./libraries.ts";
import { LabelWords, OriginLink } from "./originLink.tsx";
import { SpillTable } from "./spillTable.tsx";
import { Sentence, TradeSymbol } from "./tradeSymbol.tsx";

interface Props {
  readonly traced: TracedCall;
  readonly go: (to: Place) => void;
  readonly libraries: Libraries | undefined;
  /** The row and column of a spilled result that is looked at. */
  readonly at?: { readonly row: number; readonly column: number };
}

/** One call of ours, from its arguments to its result. */
export function CallTrace({ traced, go, libraries, at }: Props) {
  const { formula, spill, trace, spilled, refused } = traced;
  const of = formula ?? spill;
  if (!of || traced.unknown) return <WithoutFormula traced={traced} go={go} />;
  return (
    <article class="kb-call" aria-label={`KERN.${of.id}`}>
      <h3>
        <FunctionName id={of.id} />
      </h3>
      <p>
        <Sentence of={of.summary} />. <ReferenceLink id={of.id} />
      </p>
      {refused && (
        <p class="kb-problem">
          <strong>No result.</strong> {refused.message}.
        </p>
      )}
      <h4>Arguments</h4>
      <CallArguments of={of} traced={traced} go={go} />
      {trace && <Calculation traced={traced} trace={trace} libraries={libraries} />}
      {spill && (
        <>
          <h4>Equation</h4>
          <Equation libraries={libraries} plain={spill.governing} tex={spill.governing} />
        </>
      )}
      {spilled && <SpillTable spilled={spilled} at={at} />}
      <SourceOf source={sourceFor(of, traced.trace?.values ?? {})} />
      {of.notes && (
        <section>
          <h4>Definitions and signs</h4>
          <ul>
            {of.notes.map((n) => (
              <li key={n}>
                <Sentence of={n} />
              </li>
            ))}
          </ul>
        </section>
      )}
    </article>
  );
}

/** A long name breaks before an underscore, not inside a word or a year. */
function FunctionName({ id }: { readonly id: string }) {
  return (
    <>
      KERN.
      {id.split("_").map((part, i) =>
        i === 0 ? (
          part
        ) : (
          <>
            <wbr />_{part}
          </>
        ),
      )}
    </>
  );
}

/** A function about the workbook itself, or one that is not known here. */
function WithoutFormula({
  traced: { call, arguments: all, unknown },
  go,
}: {
  readonly traced: TracedCall;
  readonly go: (to: Place) => void;
}) {
  const known = call.misspelt === undefined ? worksheetFunctions.find((f) => f.id === call.id) : undefined;
  if (unknown)
    return (
      <div>
        <p class="kb-problem">{unknown.message}.</p>
        {unknown.nearest.length > 0 && (
          <p>
            Nearest:{" "}
            {unknown.nearest.map((id, i) => (
              <span key={id}>
                {i > 0 && ", "}
                <code>KERN.{id}</code> <ReferenceLink id={id} />
              </span>
            ))}
          </p>
        )}
      </div>
    );
  if (!known) return null;
  return (
    <article class="kb-call" aria-label={`KERN.${call.id}`}>
      <h3>
        <FunctionName id={call.id} />
      </h3>
      <p>
        <Sentence of={known.summary} />. <ReferenceLink id={call.id} />
      </p>
      {all.length > 0 && (
        <>
          <h4>Arguments</h4>
          <ol class="kb-arguments">
            {all.map((a, i) => (
              <li key={i}>
                {a.origin ? <OriginLink origin={a.origin} go={go} /> : <code>{a.written.text || "not given"}</code>}{" "}
                <LabelWords label={a.origin?.label} />
              </li>
            ))}
          </ol>
        </>
      )}
    </article>
  );
}

function Calculation({
  traced,
  trace,
  libraries,
}: {
  readonly traced: TracedCall;
  readonly trace: Trace;
  readonly libraries: Libraries | undefined;
}) {
  const { formula, arguments: all } = trace;
  const conversions = all.filter((a) => a.conversion !== undefined);
  const known: Record<string, unknown> = {
    ...trace.values,
    ...Object.fromEntries(trace.steps.map((s) => [s.name, s.value])),
  };
  const several = trace.steps.length > 1;
  return (
    <section>
      <h4>{several ? "Steps" : "Equation"}</h4>
      {conversions.length > 0 && (
        <ul class="kb-conversions" aria-label="Conversions">
          {conversions.map((a) => (
            <li key={a.name}>
              <TradeSymbol of={a.parameter.symbol} /> {a.conversion}
            </li>
          ))}
        </ul>
      )}
      <ol class="kb-steps">
        {trace.steps.map(({ name, step, value, shown }, i) => {
          const reads = step.reads ?? coherentUnit(step.unit);
          const converted = readFactor(step) !== 1;
          const last = i === trace.steps.length - 1;
          return (
            <li key={name} class={last ? "kb-last" : undefined}>
              {several && (step.text || step.clause) && (
                <div class="kb-from">
                  {step.text && <Sentence of={step.text} />}
                  {step.clause && <span class="kb-clause"> {step.clause}</span>}
                </div>
              )}
              {"lookup" in step ? (
                <LookUp
                  of={formula.params[step.lookup.of]?.text ?? formula.steps[step.lookup.of]?.text ?? step.lookup.of}
                />
              ) : (
                <Equation
                  libraries={libraries}
                  plain={equationFor(step, trace.values)}
                  tex={libraries ? equationTex(libraries.math, formula, name, trace.values) : ""}
                />
              )}
              {"equation" in step && libraries && (
                <Equation
                  libraries={libraries}
                  plain={`numbers put in: ${withUnit(value, reads)}`}
                  tex={`= ${substitutionTex(libraries.math, formula, name, known)}`}
                />
              )}
              <div class="kb-stepvalue">
                <TradeSymbol of={step.symbol} /> = <b>{withUnit(value, reads)}</b>
                {converted && (
                  <>
                    {" "}
                    = <b>{withUnit(shown, step.unit)}</b>
                  </>
                )}
              </div>
            </li>
          );
        })}
      </ol>
      <Result traced={traced} trace={trace} />
      {libraries && <Second trace={trace} known={known} libraries={libraries} />}
    </section>
  );
}

function LookUp({ of }: { readonly of: string }) {
  return <div class="kb-from">read from the table by {of}</div>;
}

/** What the function gives now, and whether the cell holds it; of a call inside a formula the cell holds no value. */
function Result({ traced: { hosts }, trace }: { readonly traced: TracedCall; readonly trace: Trace }) {
  const { result } = trace.formula;
  const same = typeof hosts?.value === "number" ? relativeDifference(hosts.value, trace.result) : undefined;
  return (
    <div class="kb-result">
      <p>
        Result <strong>{withUnit(trace.result, result.unit)}</strong>
        {same !== undefined && same <= agreement && " – the cell holds the same value."}
      </p>
      {hosts && same === undefined && (
        <p class="kb-problem">
          The cell shows {hosts.error?.code ?? (hosts.text || "nothing")} in its place. Recalculate the sheet.
        </p>
      )}
      {same !== undefined && same > agreement && (
        <p class="kb-problem">
          The cell holds {numberText(hosts!.value as number)} instead: it has not been recalculated since its inputs
          changed, or it was made by another version.
        </p>
      )}
    </div>
  );
}

/** The displayed equations evaluated apart from the function that the worksheet runs. */
function Second({
  trace,
  known,
  libraries,
}: {
  readonly trace: Trace;
  readonly known: Readonly<Record<string, unknown>>;
  readonly libraries: Libraries;
}) {
  const { formula } = trace;
  let second: Readonly<Record<string, number>> | undefined;
  let failure = "";
  try {
    second = evaluateSteps(libraries.math, formula, trace.values);
  } catch (problem) {
    failure = whyNot(problem);
  }
  const inWords = trace.steps.filter((s) => "governing" in s.step);
  const compared = trace.steps.filter((s) => !("governing" in s.step));
  const worst = second
    ? Math.max(0, ...compared.map((s) => relativeDifference(second[s.name]!, known[s.name] as number)))
    : 0;
  return (
    <section class="kb-second">
      <h4>Second evaluation</h4>
      {failure ? (
        <p class="kb-problem">The displayed equations could not be evaluated: {failure}.</p>
      ) : (
        compared.length > 0 &&
        (worst <= agreement ? (
          <p>
            <span class="kb-tag kb-tag-good">agrees</span> The displayed{" "}
            {compared.length > 1 ? "equations give" : "equation gives"}{" "}
            {withUnit(
              second![compared.at(-1)!.name]!,
              compared.at(-1)!.step.reads ?? coherentUnit(compared.at(-1)!.step.unit),
            )}
            ; greatest relative difference {numberText(worst)}.
          </p>
        ) : (
          <p class="kb-problem">
            <span class="kb-tag kb-tag-bad">disagrees</span> The displayed equations and the function differ by{" "}
            {numberText(worst)} relative. Do not use this value.
          </p>
        ))
      )}
      {inWords.length > 0 && trace.proof !== undefined && (
        <p>
          <span class={`kb-tag ${Math.abs(trace.proof) <= agreement ? "kb-tag-good" : "kb-tag-bad"}`}>
            {Math.abs(trace.proof) <= agreement ? "agrees" : "disagrees"}
          </span>{" "}
          Of{" "}
          {inWords.map((s, i) => (
            <>
              {i > 0 && ", "}
              <TradeSymbol of={s.step.symbol} />
            </>
          ))}{" "}
          the governing equation leaves a relative residual of {numberText(trace.proof)}.
        </p>
      )}
      <p class="kb-from">This shows that display and function say the same, not that the equation fits your case.</p>
    </section>
  );
}

function SourceOf({ source }: { readonly source: Source }) {
  const standard = source.basis !== "derived";
  return (
    <section class="kb-source">
      <h4>Source</h4>
      <p>
        <cite>{sources[source.key]}</cite>
        {source.clause && <> {clauseWords(source.clause)}.</>}
      </p>
      <p>
        Basis: {basisText[source.basis]}
        {source.readIn ? (
          <>
            , in <cite>{sources[source.readIn]}</cite>
          </>
        ) : (
          "."
        )}
        {standard && <> {ownCopyAdvice}</>}
      </p>
    </section>
  );
}
