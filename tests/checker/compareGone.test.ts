import { expect, it } from "vitest";
import { compare } from "../../src/checker/index.ts";
import { templates } from "../../src/templates/index.ts";
import { deletedAt } from "./deletedAt.ts";
import { Built, name } from "./planted.ts";

it("a sheet deleted while it is compared is named by the refusal, or compared as it was read; nothing hangs", async () => {
  const template = templates.at(-1)!;
  const whole = await Built.of(template);
  const counted = deletedAt(0, whole.faults.host, () => Promise.resolve());
  expect((await compare(counted.host, name))?.clean).toBe(true);
  const outcomes: string[] = [];
  for (let turn = 1; turn <= counted.asked(); turn++) {
    const { faults } = await Built.of(template);
    const { host } = deletedAt(turn, faults.host, () => faults.remove(name));
    outcomes.push(
      await compare(host, name).then(
        (comparison) => (comparison?.clean ? "as it was read" : "not as it was read"),
        (error: Error) => (error.message.includes(name) ? "refused by name" : error.message),
      ),
    );
  }
  expect(outcomes[0]).toBe("refused by name");
  expect(outcomes.filter((outcome) => !["refused by name", "as it was read"].includes(outcome))).toEqual([]);
});
