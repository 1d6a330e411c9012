/**
 * The page's own body gives way to a document that is to be printed: neither frame nor window is needed, which the
 * page's policy would forbid.
 */
const classes = { paper: "kb-paper", printing: "kb-printing" } as const;

function clear(): void {
  document.body.classList.remove(classes.printing);
  for (const paper of document.querySelectorAll(`body > .${classes.paper}`)) paper.remove();
}

/** Puts a whole HTML document where only a printer sees it. Its own rules come with it, so they must bear on classes of its own alone. */
export function layOut(text: string): HTMLElement {
  clear();
  const made = new DOMParser().parseFromString(text, "text/html");
  const paper = document.createElement("div");
  paper.className = classes.paper;
  paper.append(
    ...[...made.head.querySelectorAll("style"), ...made.body.childNodes].map((node) => document.importNode(node, true)),
  );
  document.body.append(paper);
  document.body.classList.add(classes.printing);
  return paper;
}

/** Prints a document; resolves when the program has taken it over. Throws where the program offers no printing. */
export function printDocument(text: string): void {
  if (typeof window.print !== "function") throw new Error("this program's web view prints nothing");
  layOut(text);
  window.addEventListener("afterprint", clear, { once: true });
  window.print();
}

/** Hands a document to the program as a file to keep. Whether the program takes it cannot be seen from here. */
export function saveText(text: string, fileName: string, type = "text/html"): void {
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement("a");
  link.href = address;
  link.download = fileName;
  link.textContent = fileName;
  document.body.append(link);
  link.click();
  link.remove();
  // The program reads the address after the click.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
