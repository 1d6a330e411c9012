/** A template of the smallest kind: one input, one check. */
export const small = {
  id: "small-check",
  version: "1.0.0",
  title: "Small check (invented)",
  line: "One input and its limit.",
  office: "Alder Office (invented)",
  standard: "none",
  method: "none",
  conventions: ["Tension positive."],
  cautions: ["For use by a competent engineer."],
  shape: [],
  dimensions: {},
  blocks: [
    {
      id: "inputs",
      title: "Inputs",
      items: [
        { id: "F", text: "force", symbol: "F", unit: "kN", input: { min: 0, max: 1000, default: 10 } },
        { id: "Fmax", text: "limit", symbol: "F_max", unit: "kN", formula: "=20" },
      ],
    },
    {
      id: "checks",
      title: "Checks",
      items: [
        {
          id: "util",
          text: "force over its limit",
          symbol: "–",
          unit: "–",
          formula: "={F}/{Fmax}",
          verdict: '=IF({util}<=1,"OK","FAIL")',
          summary: {},
        },
        {
          id: "overall",
          text: "overall verdict",
          symbol: "–",
          unit: "–",
          formula: '=IF({count:FAIL}>0,"FAIL","OK")',
          overall: true,
        },
      ],
    },
  ],
  charts: [],
  example: { name: "Small", note: "Invented.", inputs: { F: 12 } },
};
