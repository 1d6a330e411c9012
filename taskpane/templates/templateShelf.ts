import { answer, openStore, patience, type Patience } from "../store.ts";

/** The file of an office's template, as it is kept in this browser. */
export interface KeptTemplate {
  readonly id: string;
  /** The name of the file that was chosen. */
  readonly file: string;
  readonly text: string;
}

/** Where chosen files stay: the browser's own store, or memory in tests. */
export interface TemplateShelf {
  list(): Promise<readonly KeptTemplate[]>;
  /** Another of the same id takes its place. */
  put(template: KeptTemplate): Promise<void>;
  remove(id: string): Promise<void>;
}

const store = "files";

/** The browser's own store, for the workbench and for the add-in: pages of this address share it. */
export async function browserTemplates(name = "kernbook templates", wait: Patience = patience): Promise<TemplateShelf> {
  const transacted = await openStore(name, { [store]: "id" }, wait);
  return {
    list: () =>
      transacted("readonly", async (transaction) => {
        const all: unknown = await answer(transaction.objectStore(store).getAll());
        return all as readonly KeptTemplate[];
      }),
    put: (template) =>
      transacted("readwrite", async (transaction) => {
        await answer(transaction.objectStore(store).put(template));
      }),
    remove: (id) =>
      transacted("readwrite", async (transaction) => {
        await answer(transaction.objectStore(store).delete(id));
      }),
  };
}
