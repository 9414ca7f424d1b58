/** Masses and torques as a person writes them, `780 lb` or `540 N m`, and what they come to. */

/** NIST SP 811, exact. */
const KG_PER_LB = 0.45359237;
const NEWTONS_PER_LBF = 4.4482216152605;
const NM_PER_LBF_FT = 1.3558179483314004;
/** Standard gravity, m/s2 (NIST SP 811, exact). */
export const GRAVITY = 9.80665;

export const MASS_EXPECTED = 'a weight such as 780 lb or 350 kg';
export const TORQUE_EXPECTED = 'a torque such as 400 lbf ft or 540 N m';

type Parsed = { readonly value: number } | { readonly problem: string };
type Units = 'in' | 'mm';

const NUMBER = String.raw`([+-]?(?:\d+\.?\d*|\.\d+))`;
const MASS = new RegExp(String.raw`^${NUMBER}\s*(lb|lbs|kg)?$`);
const TORQUE = new RegExp(String.raw`^${NUMBER}\s*(lbf?[ .·*-]?ft|ft[ .·*-]?lbf?|n[ .·*-]?m)?$`);

/** Kilograms; a plain number is pounds in a file in inches. */
export function parseMass(raw: number | string, units: Units): Parsed {
  const match = MASS.exec(String(raw).trim().toLowerCase());
  if (match === null) return { problem: 'this is not a weight' };
  const isMetric = match[2] === undefined ? units === 'mm' : match[2] === 'kg';
  return positive(Number(match[1]) * (isMetric ? 1 : KG_PER_LB));
}

/** Newton metres; a plain number is lbf ft in a file in inches. */
export function parseTorque(raw: number | string, units: Units): Parsed {
  const match = TORQUE.exec(String(raw).trim().toLowerCase());
  if (match === null) return { problem: 'this is not a torque' };
  const isMetric = match[2] === undefined ? units === 'mm' : match[2].startsWith('n');
  return positive(Number(match[1]) * (isMetric ? 1 : NM_PER_LBF_FT));
}

function positive(value: number): Parsed {
  return value > 0 && value < 1e6
    ? { value }
    : { problem: 'this must be more than 0, within reason' };
}

/** Newtons to lbf in inches, as they are in millimetres. */
export function inForceUnits(newtons: number, units: Units): number {
  return units === 'in' ? newtons / NEWTONS_PER_LBF : newtons;
}

/** Newton metres to lbf ft in inches. */
export function inTorqueUnits(newtonMetres: number, units: Units): number {
  return units === 'in' ? newtonMetres / NM_PER_LBF_FT : newtonMetres;
}

/** Kilograms to pounds in inches. */
export function inMassUnits(kilograms: number, units: Units): number {
  return units === 'in' ? kilograms / KG_PER_LB : kilograms;
}
