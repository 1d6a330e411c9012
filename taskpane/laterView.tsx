import type { ComponentType } from "preact";
import { useLater } from "./later.ts";
import { NotLoaded } from "./notLoaded.tsx";

interface Props<Given extends object> {
  /** What is loaded, as in “Trace could not be loaded”. */
  readonly title: string;
  /** The same function each time. */
  readonly load: () => Promise<ComponentType<Given>>;
  readonly given: Given;
}

/** A view whose code is loaded when it is first shown, so that the panel itself opens sooner. */
export function LaterView<Given extends object>({ title, load, given }: Props<Given>) {
  const { loaded, failed, again } = useLater(load);
  if (loaded) return <loaded.it {...given} />;
  return failed ? <NotLoaded title={title} error={failed.error} again={again} /> : null;
}
