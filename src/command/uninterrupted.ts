/** Signals by which a person or the system ends a command, with the exit status that says so. */
const endings: Readonly<Partial<Record<NodeJS.Signals, number>>> = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 };

/** Does something to its end although the command is told to end meanwhile, and ends it then. */
export function uninterrupted(act: () => void): void {
  const handlers = Object.entries(endings).map(([signal, status]) => ({
    signal: signal as NodeJS.Signals,
    end: () => process.exit(status),
  }));
  for (const { signal, end } of handlers) process.on(signal, end);
  try {
    act();
  } finally {
    // A signal that came meanwhile is heard when the program next waits: after a main module or a read, only behind the first setImmediate.
    setImmediate(() => setImmediate(() => handlers.forEach(({ signal, end }) => process.off(signal, end))));
  }
}
