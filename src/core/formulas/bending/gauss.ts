type Node = readonly [at: number, weight: number];

/** Abscissae and weights of Gauss on 0 to 1, from the roots of the Legendre polynomial. */
export function gaussNodes(count: number): readonly Node[] {
  return Array.from({ length: count }, (_, i) => {
    let z = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 50; step++) {
      let [previous, value] = [0, 1];
      for (let k = 0; k < count; k++) [previous, value] = [value, ((2 * k + 1) * z * value - k * previous) / (k + 1)];
      slope = (count * (z * value - previous)) / (z * z - 1);
      const change = value / slope;
      z -= change;
      if (Math.abs(change) < 1e-16) break;
    }
    return [(1 - z) / 2, 1 / ((1 - z * z) * slope * slope)] as const;
  });
}
