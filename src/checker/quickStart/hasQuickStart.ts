import { isEn, isPost, type Template } from "../../sheet/index.ts";

/** Whether a template asks all that the few answers are for; one of an office may have left some of it out. */
export function hasQuickStart(template: Template): boolean {
  const asked = new Set([
    ...template.shape.map(({ id }) => id),
    ...template.blocks.flatMap(({ items }) =>
      items.flatMap((item): readonly string[] => {
        if ("table" in item) return item.columns.flatMap(({ id, input }) => (input ? [id] : []));
        return "id" in item && item.input ? [item.id] : [];
      }),
    ),
  ]);
  const steel = isPost(template) ? ["tendons", "points", "cpL", "cpy"] : ["rows", "yMidIn"];
  const demand = isEn(template) ? "exposure" : "memberType";
  return ["L", "section", "h", "fck", "gs", "ql", "product", "strands", "sigj", demand, ...steel].every((id) =>
    asked.has(id),
  );
}
