import { useEffect, useRef, useState } from "preact/hooks";
import type { Libraries } from "./libraries.ts";

/** An equation set as MathML. Where it cannot be set, its plain text shows instead. */
export function Equation({
  tex,
  plain,
  libraries,
}: {
  readonly tex: string;
  readonly plain: string;
  readonly libraries: Libraries | undefined;
}) {
  const place = useRef<HTMLDivElement>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (!libraries || !place.current || !tex) return;
    try {
      libraries.typeset(tex, place.current);
      setFailed(false);
    } catch {
      // The typesetter's own fault must not hide the equation: its text is shown.
      setFailed(true);
    }
  }, [libraries, tex]);
  if (failed || !libraries || !tex)
    return (
      <div class="kb-equation">
        <code>{plain}</code>
      </div>
    );
  // Wide equations scroll by themselves, so the keyboard must reach them.
  return <div class="kb-equation" ref={place} tabIndex={0} role="group" aria-label={`Equation: ${plain}`} />;
}
