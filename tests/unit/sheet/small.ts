import type { Template } from "../../../src/sheet/index.ts";

/** A template made for these tests: every feature once, no engineering of its own. */
export const small: Template = {
  id: "small",
  version: "1.2.3",
  title: "Small sheet",
  line: "For tests.",
  standard: "none",
  method: "none",
  conventions: ["Tendon stress: tension positive."],
  cautions: ["A tensioned tendon stores lethal energy."],
  shape: [
    { id: "tendons", text: "tendons", symbol: "n_t", default: 2, min: 1, max: 4 },
    { id: "points", text: "control points", symbol: "n_c", default: 3, min: 2, max: 4 },
    { id: "intervals", text: "intervals", symbol: "n_x", default: 2, min: 2, max: 6 },
    {
      id: "lifted",
      text: "lifted",
      symbol: "lift",
      default: "YES",
      choices: [
        { value: "YES", text: "lifted" },
        { value: "NO", text: "in place" },
      ],
    },
  ],
  dimensions: {
    tendon: { count: "tendons", label: "tendon" },
    point: { count: "points", label: "point" },
    innerPoint: { within: "point", skipFirst: 1, skipLast: 1, label: "inner point" },
    interval: { count: "intervals", plus: 1, label: "mark" },
    inner: { within: "interval", skipFirst: 1, skipLast: 1, label: "inner mark" },
    station: { rowsOf: "places", label: "station" },
    stage: {
      label: "stage",
      members: [
        { id: "transfer", text: "Transfer" },
        { id: "lifting", text: "Lifting", when: { lifted: "YES" } },
        { id: "service", text: "Service" },
      ],
    },
  },
  blocks: [
    {
      id: "inputs",
      title: "Inputs",
      note: "Everything a user types.",
      items: [
        { id: "project", text: "project", symbol: "–", input: { freeText: true } },
        { id: "mu", quantity: "frictionCoefficient", input: { default: 0.2 } },
        { id: "k", quantity: "wobbleAngle", input: {} },
        { id: "L", quantity: "span", input: { default: 10 } },
        { id: "turn", quantity: "angleChange", text: "angle change an interval", input: { default: 0.1, max: 1 } },
        {
          id: "cement",
          text: "cement class",
          symbol: "class",
          input: {
            default: "N",
            choices: [
              { value: "S", text: "slow" },
              { value: "N", text: "normal" },
            ],
          },
        },
        {
          id: "grade",
          text: "class",
          symbol: "no.",
          input: {
            default: 2,
            choices: [
              { value: 1, text: "one" },
              { value: 2, text: "two" },
            ],
          },
        },
        {
          id: "limit",
          text: "limit from your copy",
          symbol: "σ_lim",
          unit: "MPa",
          input: { above: 0, below: 3000, mayBeEmpty: true },
        },
        {
          id: "liftFactor",
          text: "factor while lifting",
          symbol: "γ",
          when: { lifted: "YES" },
          input: { default: 1, min: 0.5 },
        },
        {
          table: "tendonInputs",
          title: "Tendons",
          over: ["tendon"],
          columns: [
            { id: "t", text: "tendon", symbol: "no.", index: "tendon" },
            { id: "sigj", quantity: "jackingStress", input: { default: 1400 } },
            { id: "strandLabel", text: "label", symbol: "–", input: { freeText: true } },
          ],
        },
        {
          table: "controlPoints",
          title: "Control points",
          over: ["tendon", "point"],
          columns: [
            { id: "cpt", text: "tendon", symbol: "no.", index: "tendon" },
            { id: "cpx", quantity: "controlX", input: {} },
            { id: "cpe", quantity: "eccentricity", input: {} },
            {
              id: "cps",
              text: "shape",
              symbol: "shape",
              input: {
                default: "LINE",
                choices: [
                  { value: "LINE", text: "straight" },
                  { value: "SMOOTH", text: "parabola" },
                ],
              },
            },
          ],
        },
      ],
    },
    {
      id: "places",
      title: "Places",
      items: [
        {
          table: "places",
          title: "Places",
          over: ["interval"],
          columns: [
            { id: "pi", text: "number", symbol: "no.", index: "interval" },
            { id: "px", quantity: "place", formula: "{L}*({pi}-1)/{intervals}" },
          ],
          parts: [{ over: ["tendon", "innerPoint"], formulas: { px: "{cpx}" }, index: { pi: "innerPoint" } }],
        },
        {
          table: "stations",
          title: "Stations",
          over: ["station"],
          columns: [
            { id: "n", text: "station", symbol: "no.", index: "station" },
            { id: "x", quantity: "station", formula: "SMALL({px[*]},{n})" },
            { id: "raw", quantity: "place", text: "place before sorting", formula: "{px}" },
          ],
        },
        {
          table: "marks",
          title: "Marks",
          over: ["interval"],
          columns: [
            { id: "mi", text: "mark", symbol: "no.", index: "interval" },
            { id: "m", quantity: "place", formula: "{L}*({mi}-1)/{intervals}" },
          ],
        },
        {
          table: "between",
          title: "Inner marks",
          over: ["inner"],
          columns: [
            { id: "bi", text: "mark", symbol: "no.", index: "interval" },
            { id: "bm", quantity: "place", formula: "{m}" },
          ],
        },
      ],
    },
    {
      id: "losses",
      title: "Losses",
      items: [
        {
          table: "along",
          title: "Along each tendon",
          over: ["tendon", "station"],
          columns: [
            { id: "an", text: "station", symbol: "no.", index: "station" },
            { id: "ax", quantity: "distanceFromJack", formula: "{x}" },
            { id: "theta", quantity: "angleChange", symbol: "θ", formula: "IF({an}=1,0,{theta[-1]}+{turn})" },
            { id: "ecc", quantity: "eccentricity", formula: "KERN.TENDON_ECCENTRICITY({cpx:cps[]},{x})" },
            {
              id: "sfr",
              quantity: "tendonStress",
              formula: 'KERN.FRICTION_STRESS({theta},{mu},{k},"rad/m",{sigj},{ax})',
              warnAt: "last",
            },
          ],
        },
        {
          table: "atStation",
          title: "At each station",
          over: ["station", "tendon"],
          columns: [{ id: "sf", quantity: "tendonStress", formula: "{sfr}" }],
        },
        {
          table: "means",
          title: "Means",
          over: ["station"],
          columns: [{ id: "mean", quantity: "tendonStress", formula: "AVERAGE({sf[]})" }],
        },
        {
          table: "ends",
          title: "Ends",
          over: ["tendon"],
          columns: [
            { id: "sFirst", quantity: "tendonStress", formula: "{sfr[first]}" },
            { id: "sLast", quantity: "tendonStress", formula: "{sfr[last]}" },
            { id: "sAll", quantity: "tendonStress", formula: "MAX({sfr[]})" },
          ],
        },
        {
          id: "sRef",
          quantity: "tendonStress",
          text: "stress at the reference point",
          symbol: "σ_ref",
          formula: 'KERN.FRICTION_STRESS({turn},{mu},{k},"rad/m",{jack},{ref})',
        },
        { id: "jack", quantity: "jackingStress", formula: "MAX({sigj[]})" },
        { id: "ref", quantity: "distanceFromJack", formula: "{L}" },
      ],
    },
    {
      id: "checks",
      title: "Checks",
      items: [
        {
          table: "stages",
          title: "Stages",
          over: ["stage"],
          columns: [
            { id: "stageNo", text: "stage", symbol: "no.", index: "stage" },
            { id: "stageName", text: "stage", symbol: "–", memberText: "stage" },
            { id: "factor", text: "factor", symbol: "f", cells: { transfer: 1, lifting: "={liftFactor}", service: 0 } },
          ],
        },
        {
          table: "check",
          title: "Check",
          over: ["stage", "station"],
          columns: [
            { id: "vn", text: "station", symbol: "no.", index: "station" },
            { id: "vs", quantity: "tendonStress", formula: "{factor}*{mean}" },
            {
              id: "vok",
              text: "verdict",
              symbol: "–",
              verdict: true,
              formula: 'IF({limit}="","LIMIT MISSING",IF({vs}<={limit},"OK","FAIL"))',
            },
            { id: "vx", quantity: "station", formula: "{x}" },
          ],
        },
      ],
    },
    {
      id: "summary",
      title: "Summary",
      items: [
        {
          id: "uMax",
          text: "highest stress of its limit",
          symbol: "u",
          formula: "MAX({vs[*]})/{limit}",
          verdict: 'IF({limit}="","LIMIT MISSING",IF({uMax}<=1,"OK","FAIL"))',
          summary: { where: '"x = "&TEXT(INDEX({vx[*]},MATCH(MAX({vs[*]}),{vs[*]},0)),"0.00")' },
        },
        { id: "nFail", text: "fails", symbol: "–", formula: "{count:FAIL}" },
        {
          id: "nOpen",
          text: "open",
          symbol: "–",
          formula: "{count:MISSING}+{count:OUT OF RANGE}+{count:LIMIT MISSING}+{count:error}",
        },
        { id: "nWarn", text: "warnings", symbol: "–", formula: "{count:warnings}" },
        {
          id: "overall",
          text: "overall verdict",
          symbol: "–",
          overall: true,
          formula: 'IF({shapeChanged},"REBUILD",IF({nOpen}>0,"INCOMPLETE",IF({nFail}>0,"FAIL","OK")))',
        },
        { note: "Cautions hold on every sheet.", caution: true },
        { warnings: true },
      ],
    },
  ],
  charts: [
    {
      id: "tendons",
      title: "Each tendon",
      block: "losses",
      x: { column: "ax", label: "x", unit: "m" },
      y: { label: "σ_p", unit: "MPa" },
      series: [{ column: "sfr", name: "tendon", kind: "value", each: "tendon" }],
    },
    {
      id: "mean",
      title: "Mean",
      block: "losses",
      x: { column: "x", label: "x", unit: "m" },
      y: { label: "σ_p", unit: "MPa" },
      series: [{ column: "mean", name: "mean", kind: "value" }],
    },
    {
      id: "service",
      title: "Service",
      block: "checks",
      x: { column: "x", label: "x", unit: "m" },
      y: { label: "σ_p", unit: "MPa" },
      series: [{ column: "vs", name: "stress", kind: "value", member: "service" }],
    },
    {
      id: "lifting",
      title: "Lifting",
      block: "checks",
      when: { lifted: "YES" },
      x: { column: "vx", label: "x", unit: "m" },
      y: { label: "σ_p", unit: "MPa" },
      series: [{ column: "vs", name: "stress", kind: "value", member: "lifting" }],
    },
  ],
  example: {
    name: "Alder Quay",
    note: "Invented.",
    inputs: {
      k: 0.007,
      sigj: [1400, 1380],
      cpx: [
        [0, 5, 10],
        [0, 4, 10],
      ],
      cpe: [
        [0, 200, 0],
        [0, 100, 0],
      ],
    },
  },
};

/** A deep copy to plant one fault in. */
export function copy(): Template & { [key: string]: unknown } {
  return structuredClone(small) as Template & { [key: string]: unknown };
}
