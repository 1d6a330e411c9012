import type { ExcelDependencies } from "./runs.ts";

type Handler = OfficeExtension.EventHandlerResult<unknown>;

/** Subscribes to events of the program; returns a function that ends it. Nobody waits for either, so errors are reported. */
export function subscribe(
  { run, report }: ExcelDependencies,
  add: (context: Excel.RequestContext) => readonly Handler[],
): () => void {
  const added = run(async (context) => {
    const handlers = add(context);
    await context.sync();
    return handlers;
  });
  added.catch(report);
  let ended = false;
  const remove = async (): Promise<void> => {
    // Where subscribing failed, there is nothing to end and the failure is already reported.
    const handlers = await added.catch(() => []);
    for (const handler of handlers) {
      await run(handler.context, async (context) => {
        handler.remove();
        await context.sync();
      });
    }
  };
  return () => {
    if (ended) return;
    ended = true;
    remove().catch(report);
  };
}
