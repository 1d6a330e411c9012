import { useRef } from "preact/hooks";
import { useFocusBack } from "./focusBack.ts";

/** How far the making of a sheet is. */
export interface Step {
  readonly done: number;
  readonly of: number;
  readonly what: string;
}

interface Props {
  /** Of the progress bar: unique in the panel. */
  readonly id: string;
  readonly label: string;
  /** What is going on, as in “Making the validation sheet”. */
  readonly doing: string;
  readonly step: Step | undefined;
  readonly disabled?: boolean;
  readonly cancel: () => void;
}

/**
 * The button that makes a new sheet, and below it how far that is. The button stays where it is meanwhile, so that the
 * second click of a double click lands on it and not on Cancel.
 */
export function SheetButton({ id, label, doing, step, disabled = false, cancel }: Props) {
  const place = useRef<HTMLDivElement>(null);
  useFocusBack(place, step !== undefined);
  return (
    <div ref={place}>
      <button type="submit" class="kb-primary" disabled={disabled && !step} aria-disabled={step !== undefined}>
        {label}
      </button>
      {step && (
        <div class="kb-progress">
          <label for={id}>
            {doing}: {step.what}
          </label>
          <progress id={id} {...(step.of > 0 && { value: step.done, max: step.of })} />
          <button type="button" onClick={cancel}>
            Cancel
          </button>
        </div>
      )}
      <p class="kb-hidden" role="status">
        {step ? doing : ""}
      </p>
    </div>
  );
}
