/** Every order of so many units of each model. */
export function ordersOf(quantities: readonly number[]): number[][] {
  if (quantities.every((units) => units === 0)) return [[]];
  return quantities.flatMap((units, model) =>
    units === 0 ? [] : ordersOf(quantities.with(model, units - 1)).map((order) => [model, ...order]),
  );
}
