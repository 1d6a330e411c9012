/**
 * Strength in bending once more, apart from the core: thin slices of a section given by its width, stresses straight
 * from the curves, the neutral axis
 * by halving. Depths run down from the compressed edge; tension of steel and compression of concrete positive; N, mm, MPa.
 */
export interface FibreLayer {
  readonly A: number;
  readonly d: number;
  readonly E: number;
  readonly f_y: number;
  readonly f_t: number;
  readonly e_u: number;
  readonly e_ud: number;
  readonly pre: number;
}
interface FibreSection {
  readonly height: number;
  readonly width: (depth: number) => number;
  readonly layers: readonly FibreLayer[];
  readonly f_cd: number;
  readonly eps_c2: number;
  readonly eps_cu: number;
  readonly n: number;
}

const slices = 20_000;

function steel({ E, f_y, f_t, e_u }: FibreLayer, strain: number): number {
  const size = Math.abs(strain);
  const elastic = E * size;
  const hardened = f_y + ((f_t - f_y) * (size - f_y / E)) / (e_u - f_y / E);
  return Math.sign(strain) * (elastic < f_y ? elastic : hardened);
}

function concrete({ f_cd, eps_c2, n }: FibreSection, strain: number): number {
  if (strain <= 0) return 0;
  if (strain >= eps_c2) return f_cd;
  return f_cd * (1 - (1 - strain / eps_c2) ** n);
}

function forces(section: FibreSection, x: number): { readonly N: number; readonly M: number } {
  const { height, width, layers, eps_cu } = section;
  let edge = eps_cu;
  for (const { d, e_ud, pre } of layers) if (d > x) edge = Math.min(edge, ((e_ud - pre) * x) / (d - x));
  const strainAt = (depth: number): number => (edge * (x - depth)) / x;
  let [N, M] = [0, 0];
  const step = height / slices;
  for (let i = 0; i < slices; i++) {
    const depth = (i + 0.5) * step;
    const force = concrete(section, strainAt(depth)) * width(depth) * step;
    N += force;
    M -= force * depth;
  }
  for (const layer of layers) {
    const force = layer.A * (steel(layer, layer.pre - strainAt(layer.d)) + concrete(section, strainAt(layer.d)));
    N -= force;
    M += force * layer.d;
  }
  return { N, M };
}

/** Depth of the neutral axis, which lies in the section, and the moment. */
export function byFibres(section: FibreSection): { readonly x: number; readonly M: number } {
  let [low, high] = [section.height * 1e-4, section.height];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (forces(section, middle).N < 0) low = middle;
    else high = middle;
  }
  return { x: low, M: forces(section, low).M };
}
