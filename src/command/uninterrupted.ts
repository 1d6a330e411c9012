/** Signals by which a person or the system ends a command, with the exit status that says so. */
const endings: Readonly<Partial<Record<NodeJS.Signals, number>>> = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 };

const handlers = Object.entries(endings).map(([signal, status]) => ({
  signal: signal as NodeJS.Signals,
  end: () => process.exit(status),
}));
/** Acts begun whose signals have not been heard yet: they share the handlers. */
let acts = 0;

/** Does something to its end although the command is told to end meanwhile, and ends it then. */
export function uninterrupted(act: () => void): void {
  if (acts === 0) for (const { signal, end } of handlers) process.on(signal, end);
  acts += 1;
  try {
    act();
  } finally {
    // A signal that came meanwhile is heard when the program next waits: after a main module or a read, only behind the first setImmediate.
    setImmediate(() =>
      setImmediate(() => {
        acts -= 1;
        if (acts === 0) for (const { signal, end } of handlers) process.off(signal, end);
      }),
    );
  }
}
