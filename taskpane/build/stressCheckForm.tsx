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
function Ways({
  way,
  quick,
  choose,
}: {
  readonly way: Way;
  readonly quick: boolean;
  readonly choose: (way: Way) => void;
}) {
  const box = (of: Way, text: string) => (
    <label class="kb-tick">
      <input
        type="checkbox"
        checked={way === of}
        onChange={(event) => choose(event.currentTarget.checked ? of : "form")}
      />
      <span>{text}</span>
    </label>
  );
  return (
    <>
      {quick ? (
        box("quick", "Quick start: ten questions to a first verdict")
      ) : (
        <p class="kb-hint">This template leaves out inputs that the quick start answers: it has none.</p>
      )}
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
  /** The template asks what the ten questions are for. */
  readonly quick: boolean;
}

/** The ways from a template to a sheet that stands by itself. */
export function StressCheckForm(props: Props) {
  const { host, engine, template, office, way, setWay, finished, touch, onlyForm, quick } = props;
  const form = { host, engine, template, finished, touch };
  const taken = onlyForm || (way === "quick" && !quick) ? "form" : way;
  return (
    <>
      <OfficeBox host={host} engine={engine} template={template} office={office} />
      {!onlyForm && (
        <Ways
          way={taken}
          quick={quick}
          choose={(one) => {
            touch();
            setWay(one);
          }}
        />
      )}
      {taken === "quick" && <QuickForm {...form} office={office} />}
      {taken === "members" && (
        <LaterView title="Many members" load={loadMembers} given={{ host, engine, template, office, touch }} />
      )}
      {taken === "form" && <TemplateForm {...form} office={office} />}
    </>
  );
}
