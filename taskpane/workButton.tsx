import type { ComponentChildren } from "preact";

interface Props {
  readonly busy: boolean;
  readonly act: () => void;
  readonly class?: string;
  /** Where there is nothing to do yet. */
  readonly disabled?: boolean;
  readonly children: ComponentChildren;
}

/** A button whose work takes a while: it does nothing more meanwhile, and keeps the focus, which a disabled one would lose. */
export function WorkButton({ busy, act, class: look, disabled = false, children }: Props) {
  return (
    <button
      type="button"
      class={look}
      disabled={disabled && !busy}
      aria-disabled={busy}
      onClick={() => {
        if (!busy) act();
      }}
    >
      {children}
    </button>
  );
}
