import { fork, type ChildProcess } from "node:child_process";
import { join } from "node:path";
import type { Answer, Order } from "./worker.ts";

/** A process that tries mutants; ended and started anew where it does not answer in time. */
export class Worker {
  private child: ChildProcess | undefined;

  constructor(private readonly code: string) {}

  /** Undefined where there was no answer within so many milliseconds. */
  async ask(order: Order, within: number): Promise<Answer | undefined> {
    if (!this.child) {
      this.child = fork(join(import.meta.dirname, "worker.ts"), {
        execArgv: ["--import", "tsx", "--max-old-space-size=1500"],
        stdio: ["ignore", "ignore", "inherit", "ipc"],
      });
      await this.send({ code: this.code }, 60_000);
    }
    const answer = await this.send(order, within);
    if (!answer) this.end();
    return answer;
  }

  end(): void {
    this.child?.kill("SIGKILL");
    this.child = undefined;
  }

  private send(order: Order, within: number): Promise<Answer | undefined> {
    const child = this.child!;
    return new Promise((resolve) => {
      const done = (answer?: Answer): void => {
        clearTimeout(timer);
        child.removeAllListeners("message").removeAllListeners("exit");
        resolve(answer);
      };
      const timer = setTimeout(() => done(), within);
      child.once("message", (answer) => done(answer as Answer)).once("exit", () => done());
      child.send(order);
    });
  }
}
