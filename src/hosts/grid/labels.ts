type Attributes = Readonly<Record<string, string>>;

/** Names and roles that the grid's own controls lack; without them a screen reader says nothing. */
const wanted: readonly (readonly [selector: string, attributes: Attributes])[] = [
  ['[data-u-comp="defined-name"] input', { "aria-label": "Name or address of the selected cell" }],
  ['[data-u-comp="defined-name"] a', { "aria-label": "Names of the workbook", role: "button" }],
  ['[data-u-comp="formula-bar"] button', { "aria-label": "Close" }],
  ['[data-u-comp="sheet-bar-append-button"]', { "aria-label": "Add a sheet" }],
  ['[data-u-comp="editor"]', { "aria-label": "Cell content", role: "textbox" }],
];

/** Names the grid's controls, those that appear later too. */
export function labelControls(container: HTMLElement): void {
  const label = (): void => {
    for (const [selector, attributes] of wanted) {
      for (const control of container.querySelectorAll(selector))
        for (const [name, value] of Object.entries(attributes))
          if (!control.hasAttribute(name)) control.setAttribute(name, value);
    }
  };
  new MutationObserver(label).observe(container, { childList: true, subtree: true });
  label();
}
