/** The seed of one case from the campaign's: near numbers give seeds that have nothing to do with each other. */

/** Unsigned, 32 bits. */
export function caseSeed(name: string, seed: number, number: number): number {
  let state = 0x811c9dc5;
  for (const letter of name) state = mixed(state ^ letter.codePointAt(0)!);
  return mixed(mixed(state ^ (seed >>> 0)) ^ (number >>> 0));
}

/** Scatters the bits of a number one to one (the finisher of MurmurHash3, Appleby, public domain). */
function mixed(value: number): number {
  let v = value + 0x9e3779b9;
  v = Math.imul(v ^ (v >>> 16), 0x85ebca6b);
  v = Math.imul(v ^ (v >>> 13), 0xc2b2ae35);
  return (v ^ (v >>> 16)) >>> 0;
}
