import { Fragment } from "preact";
import type { TemplateEntry } from "../../src/templates/catalogue.ts";

/** "EN 1992-1-1:2004": what tells templates apart at first sight. */
const standardOf = ({ standard }: TemplateEntry): string => /^[^,(]*?:\d{4}/.exec(standard)?.[0] ?? standard;

/** The standard; of an office's template also who answers for it, and its version. */
function Tags({ of }: { readonly of: TemplateEntry }) {
  const { office, version } = of;
  const texts = [standardOf(of), ...(office === undefined ? [] : [office, version])];
  return (
    <>
      {texts.map((text) => (
        <Fragment key={text}>
          <span class="kb-tag">{text}</span>{" "}
        </Fragment>
      ))}
    </>
  );
}

interface Props {
  readonly templates: readonly TemplateEntry[];
  /** Those that stand before a stress check. */
  readonly choosing: readonly TemplateEntry[];
  /** Those that take from a sheet of another. */
  readonly linked: readonly TemplateEntry[];
  readonly chosen: TemplateEntry | undefined;
  readonly choose: (template: TemplateEntry) => void;
}

/** The templates to choose from: stress checks first, then what is linked to one, folded away, under the sheet it takes from. */
export function TemplateList({ templates, choosing, linked, chosen, choose }: Props) {
  const shipped = templates.filter(({ office }) => office === undefined);
  const ofOffices = templates.filter(({ office }) => office !== undefined);
  const choice = (template: TemplateEntry) => (
    <label key={template.id}>
      <input type="radio" name="kb-template" checked={chosen?.id === template.id} onChange={() => choose(template)} />{" "}
      <strong>{template.title}</strong> <Tags of={template} />
      <br />
      <span class="kb-hint">{template.line}</span>
    </label>
  );
  return (
    <>
      <fieldset class="kb-templates">
        <legend>Stress check</legend>
        <p class="kb-hint">By keyboard: arrow keys choose, Enter goes to the form.</p>
        {shipped.map(choice)}
      </fieldset>
      {ofOffices.length > 0 && (
        <fieldset class="kb-templates">
          <legend>Stress check of an office</legend>
          {ofOffices.map(choice)}
        </fieldset>
      )}
      {choosing.length > 0 && (
        <details class="kb-linked">
          <summary>Before the stress check ({choosing.length})</summary>
          <fieldset class="kb-templates">
            <legend>Choosing and sizing</legend>
            {choosing.map(choice)}
          </fieldset>
        </details>
      )}
      {linked.length > 0 && (
        <details class="kb-linked">
          <summary>Sheets linked to a stress check ({linked.length})</summary>
          {templates.map((source) => (
            <fieldset class="kb-templates" key={source.id}>
              <legend>
                {source.title} <Tags of={source} />
              </legend>
              {linked.filter(({ source: of }) => of === source.id).map(choice)}
            </fieldset>
          ))}
        </details>
      )}
    </>
  );
}
