import { useEffect, useState } from "preact/hooks";
import { officeState, onOfficeTemplates, type OfficeTemplates } from "./loaded.ts";

/** What is loaded of offices, always as it is now. */
export function useOfficeTemplates(): OfficeTemplates {
  const [state, setState] = useState(officeState);
  useEffect(() => {
    // What has changed between the first drawing and now.
    setState(officeState());
    return onOfficeTemplates(() => setState(officeState()));
  }, []);
  return state;
}
