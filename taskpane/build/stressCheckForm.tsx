import type { Host } from "../../src/hosts/index.ts";
import type { Template } from "../../src/sheet/index.ts";
import type { Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { LaterView } from "../laterView.tsx";
import { OfficeBox } from "./officeBox.tsx";
import { QuickForm } from "./quickForm.tsx";
import { TemplateForm } from "./templateForm.tsx";
import type { Office } from "./useOffice.ts";

const loadMembers = () => import("./membersForm.tsx").then((m) => m.MembersForm);

/** From the inputs one by one, from a few answers, or from a table of many members. */
export type Way = "form" | "quick" | "members";

/** Two boxes of which one at most is ticked; none for the form. */
function Ways({ way, choose }: { readonly way: Way; readonly choose: (way: Way) => void }) {
  const box = (of: Way, text: string) => (
    <p>
      <label>
        <input
          type="checkbox"
          checked={way === of}
          onChange={(event) => choose(event.currentTarget.checked ? of : "form")}
        />{" "}
        {text}
      </label>
    </p>
  );
  return (
    <>
      {box("quick", "Quick start: ten questions to a first verdict")}
      {box("members", "Many members: a sheet for each row of a table")}
    </>
  );
}

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  readonly template: Template;
  readonly office: Office;
  readonly way: Way;
  readonly setWay: (way: Way) => void;
  readonly finished: (built: Built) => void;
  readonly touch: () => void;
  /** No other way than from input to input. */
  readonly onlyForm: boolean;
}

/** The ways from a template to a sheet that stands by itself. */
export function StressCheckForm({ host, engine, template, office, way, setWay, finished, touch, onlyForm }: Props) {
  const form = { host, engine, template, finished, touch };
  const taken = onlyForm ? "form" : way;
  return (
    <>
      <OfficeBox host={host} engine={engine} template={template} office={office} />
      {!onlyForm && (
        <Ways
          way={way}
          choose={(one) => {
            touch();
            setWay(one);
          }}
        />
      )}
      {taken === "quick" && <QuickForm {...form} />}
      {taken === "members" && (
        <LaterView title="Many members" load={loadMembers} given={{ host, engine, template, office, touch }} />
      )}
      {taken === "form" && <TemplateForm {...form} office={office} />}
    </>
  );
}
