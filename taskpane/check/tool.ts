import type { ComponentType } from "preact";
import type { Host, Place } from "../../src/hosts/index.ts";

/** What a tool of the checker's is given. */
export interface ToolProps {
  readonly host: Host;
  /** Selects a cell and shows it. */
  readonly go: (place: Place) => void;
  /** Selects a cell and turns to Trace. */
  readonly trace: (place: Place) => void;
}

/** A tool of the checker's; its view is loaded when it is first used. */
export interface Tool {
  readonly id: string;
  readonly title: string;
  readonly load: () => Promise<ComponentType<ToolProps>>;
}
