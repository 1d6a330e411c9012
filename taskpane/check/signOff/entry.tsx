/** A text to type, with what is wrong with it. */
export function Entry({
  id,
  label,
  value,
  put,
  problem,
  hint,
}: {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly put: (text: string) => void;
  readonly problem: string;
  readonly hint?: string;
}) {
  const described = [hint && `${id}-hint`, problem && `${id}-problem`].filter(Boolean).join(" ");
  return (
    <div class="kb-field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        spellcheck={false}
        value={value}
        aria-invalid={problem ? "true" : "false"}
        {...(described && { "aria-describedby": described })}
        onInput={(e) => put(e.currentTarget.value)}
      />
      {hint && (
        <div id={`${id}-hint`} class="kb-hint">
          {hint}
        </div>
      )}
      <div id={`${id}-problem`} class="kb-problem" aria-live="polite">
        {problem}
      </div>
    </div>
  );
}
