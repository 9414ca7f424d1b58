/**
 * A script that turns the engine it is run in into one that rounds otherwise: what ECMA-262 leaves to an
 * engine comes out a unit or two in the last place off, and chance is not to be had. To be run before
 * anything else.
 */
export const OTHER_ENGINE = `
for (const name of ['acos', 'acosh', 'asin', 'asinh', 'atan', 'atan2', 'atanh', 'cbrt', 'cos', 'cosh', 'exp',
  'expm1', 'hypot', 'log', 'log10', 'log1p', 'log2', 'pow', 'sin', 'sinh', 'tan', 'tanh']) {
  const own = Math[name];
  Math[name] = (...given) => {
    const value = own(...given);
    // Every engine has whole numbers right.
    return Number.isInteger(value) ? value : value * (1 + 2 ** -51);
  };
}
Math.random = () => { throw new Error('an answer must not rest on chance'); };
`;
