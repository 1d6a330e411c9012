import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Compression all over the section bears less than compression in bending. */
export const compressionLimitDirectIs1343 = formula({
  id: "COMPRESSION_LIMIT_DIRECT_IS1343_1980",
  family: "limits",
  summary: "Greatest concrete stress in direct compression from the limit in bending, compression positive",
  notes: [
    "0.8 times the limit in bending, recalled: compare it with your copy of the standard.",
    "The limit in bending comes from COMPRESSION_LIMIT_IS1343_1980, in service or at transfer.",
  ],
  source: { key: "IS1343:1980", clause: "22.8", basis: "memory-medium" },
  params: {
    bending: as(q.compressionLimit, {
      symbol: "σ_c,b",
      text: "greatest stress allowed in bending, compression positive",
      min: 0,
      max: 60,
    }),
  },
  result: q.compressionLimit,
  equation: "0.8 * bending",
  compute: ({ bending }) => 0.8 * bending,
  unpublished: "one product, from memory",
});
