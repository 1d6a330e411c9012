import { createContext } from "preact";
import { useContext } from "preact/hooks";

/** Turns the panel to the reference page of a function. */
export const OpenReference = createContext<(id: string) => void>(() => undefined);

export function ReferenceLink({ id }: { readonly id: string }) {
  const open = useContext(OpenReference);
  return (
    <button type="button" class="kb-link" onClick={() => open(id)}>
      Reference page<span class="kb-hidden"> of {id}</span>
    </button>
  );
}
