import { useState } from "preact/hooks";
import { whyNot } from "../loading.ts";
import { Problems } from "../problems.tsx";
import { ChooseFiles } from "./chooseFiles.tsx";
import { forgetNotTaken, type Loaded } from "./loaded.ts";
import { removeTemplate } from "./reading.ts";
import { useOfficeTemplates } from "./useOfficeTemplates.ts";

/** What is loaded of offices: where from, what was refused, further files, and away with them. */
export function TemplatesBox({ touch }: { readonly touch: () => void }) {
  const { loaded, older, notTaken } = useOfficeTemplates();
  const [said, setSaid] = useState("");
  const [problems, setProblems] = useState<readonly string[]>([]);
  const remove = async (one: Loaded): Promise<void> => {
    const { title, version } = one.template;
    setSaid("");
    setProblems([]);
    try {
      setSaid((await removeTemplate(one)) ?? `“${title}” ${version} is removed.`);
    } catch (error) {
      setProblems([`“${title}” ${version} was not removed: ${whyNot(error)}.`]);
    }
  };
  /** Why an older one is not in use. */
  const insteadOf = ({ template: { id } }: Loaded): string => {
    const used = loaded.find(({ template }) => template.id === id);
    return used ? `Not in use: version ${used.template.version} from ${used.file} is used.` : "Not in use.";
  };
  const line = (one: Loaded, note: string) => {
    const { template, from, file } = one;
    return (
      <li key={`${from} ${template.id}`}>
        <strong>{template.title}</strong> <span class="kb-tag">{template.office}</span>{" "}
        <span class="kb-tag">{template.version}</span>
        <div class="kb-hint">
          {template.id}, made from {template.madeFrom?.template ?? "no shipped template"}.{" "}
          {from === "file" ? `Chosen here (${file}).` : `Served with this panel (${file}).`} {note}
        </div>
        {from === "file" && (
          <button
            type="button"
            aria-label={`Remove “${template.title}” ${template.version} of ${template.office}`}
            onClick={() => void remove(one)}
          >
            Remove
          </button>
        )}
      </li>
    );
  };
  return (
    <>
      <p class="kb-hint">
        Templates that an office made of its own sheets, one file (JSON) each. A file is checked before it is taken and
        kept in this browser. What the office serves with this panel loads by itself.
      </p>
      {loaded.length + older.length > 0 && (
        <ul class="kb-findings">
          {loaded.map((one) => line(one, ""))}
          {older.map((one) => line(one, insteadOf(one)))}
        </ul>
      )}
      <ChooseFiles id="kb-template-files" label="Load files" touch={touch} />
      <p class="kb-hint">
        Checked here: what the file may hold, the default configuration and that of its example. Other configurations
        are checked when a sheet of them is built.
      </p>
      <p role="status">{said}</p>
      <Problems texts={problems} />
      {notTaken.length > 0 && (
        <div class="kb-failure" role="alert">
          <ul class="kb-plain">
            {notTaken.map(({ file, reasons, isLoaded }) => (
              <li key={file}>
                {file}: {isLoaded ? "loaded but not kept" : "not taken"}
                <ul>
                  {reasons.map((reason) => (
                    <li key={reason}>{reason}</li>
                  ))}
                </ul>
              </li>
            ))}
          </ul>
          <button type="button" onClick={forgetNotTaken}>
            Close
          </button>
        </div>
      )}
    </>
  );
}
