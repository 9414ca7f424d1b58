/** Torques as a person writes them, `400 lbf ft` or `540 N m`, and forces in the units of a file. */

import { exactQuantity, plainText, QUANTITY } from './length.js';

/** NIST SP 811, exact. */
const NEWTONS_PER_LBF = 4.4482216152605;
const NM_PER_LBF_FT = 1.3558179483314004;
/** Standard gravity, m/s2 (NIST SP 811, exact). */
export const GRAVITY = 9.80665;

export const TORQUE_EXPECTED = 'a torque such as 400 lbf ft or 540 N m';

type Units = 'in' | 'mm';

/** The longest text that can be a torque, and the greatest one: N m. */
const MAX_LETTERS = 60;
const MAX_TORQUE = 1e5;
const TORQUE = new RegExp(String.raw`^(${QUANTITY})\s*(lbf?[ .*-]?ft|ft[ .*-]?lbf?|n[ .*-]?m)?$`);

/** Newton metres, more than 0; a plain number is lbf ft in a file in inches. The problem has no full stop. */
export function parseTorque(
  text: number | string,
  units: Units,
): { readonly newtonMetres: number } | { readonly problem: string } {
  const written = String(text);
  const match = written.length > MAX_LETTERS ? null : TORQUE.exec(plainText(written));
  if (match === null) return { problem: 'this is not a torque' };
  const [, size, word] = match;
  const value = exactQuantity(size!);
  if (typeof value === 'string') return { problem: value };
  const isMetric = word === undefined ? units === 'mm' : word.startsWith('n');
  const newtonMetres = value.valueOf() * (isMetric ? 1 : NM_PER_LBF_FT);
  if (newtonMetres > 0 && newtonMetres <= MAX_TORQUE) return { newtonMetres };
  return {
    problem: newtonMetres > 0 ? 'no engine has that torque' : 'a torque must be more than 0',
  };
}

/** Newtons to lbf in inches, as they are in millimetres. */
export function inForceUnits(newtons: number, units: Units): number {
  return units === 'in' ? newtons / NEWTONS_PER_LBF : newtons;
}

/** Newton metres to lbf ft in inches. */
export function inTorqueUnits(newtonMetres: number, units: Units): number {
  return units === 'in' ? newtonMetres / NM_PER_LBF_FT : newtonMetres;
}
