/**
 * Nodes and weights on [−1, 1] that integrate polynomials of degree 2·order − 1 exactly. Each node is a
 * root of the Legendre polynomial, found by Newton's method from Tricomi's cosine estimate.
 */
export function gaussLegendre(order: number): { nodes: Float64Array; weights: Float64Array } {
  const nodes = new Float64Array(order);
  const weights = new Float64Array(order);
  for (let i = 0; i < order; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (order + 0.5));
    let slope = 0;
    for (let k = 0; k < 20; k++) {
      const { value, derivative } = legendre(order, x);
      slope = derivative;
      const step = value / derivative;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}

function legendre(order: number, x: number): { value: number; derivative: number } {
  let before = 1;
  let value = x;
  for (let k = 2; k <= order; k++) {
    const next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
    before = value;
    value = next;
  }
  return { value, derivative: (order * (x * value - before)) / (x * x - 1) };
}
