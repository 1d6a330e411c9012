interface Props {
  readonly texts: readonly string[];
}

/** What is wrong, a line each, read out when it comes. */
export function Problems({ texts }: Props) {
  return (
    <div role="alert">
      {texts.map((text) => (
        <p class="kb-problem" key={text}>
          {text}
        </p>
      ))}
    </div>
  );
}
