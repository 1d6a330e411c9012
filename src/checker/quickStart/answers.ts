import type { Inputs } from "../../sheet/index.ts";
import type { SectionType } from "./sections.ts";

/** The answers of the quick start; with method and standard, which choose the template, there are twelve. */
export interface Answers {
  readonly L: number;
  readonly section: SectionType;
  readonly h: number;
  readonly fck: number;
  readonly gs: number;
  readonly ql: number;
  /** Exposure to EN 1992-1-1, type of member to IS 1343. */
  readonly demand: string | number;
  readonly product: string;
  /** Tendons or rows of strands, and strands in each; absent: find them. A bar is a tendon by itself. */
  readonly tendons?: number;
  readonly strands?: number;
  /** What a sheet for choosing and sizing has found. */
  readonly sizing?: Sizing;
}

/** Numbers of a sheet for choosing and sizing that go to a stress check. */
export interface Sizing {
  /** Strands in all; of a post-tensioned member in so many tendons. */
  readonly strands: number;
  readonly tendons: number;
  /** Eccentricity at midspan, mm. */
  readonly e: number;
  /** Stress at the jack, MPa. */
  readonly sigj: number;
  readonly dimensions: Inputs;
  /** Dimensions and further inputs that somebody typed there. */
  readonly said: ReadonlySet<string>;
  /** Further inputs of the stress check. */
  readonly inputs: Inputs;
  /** Inputs that each tendon has alike. */
  readonly eachTendon?: Inputs;
}
