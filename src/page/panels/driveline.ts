/** The driveline behind the engine where it is now: joints, and what they may work at; length, speed, pinion. */

import { bestPinion } from '../../geometry/driveline/best-pinion.js';
import { drivelineChecks, isKept } from '../../geometry/driveline/checks.js';
import type { DrivelineCheck } from '../../geometry/driveline/checks.js';
import { drivelineAt } from '../../geometry/driveline/standing.js';
import type { DrivelineStanding } from '../../geometry/driveline/standing.js';
import type { Driveline } from '../../model/fitup/driveline.js';
import {
  allowedWords,
  checkCells,
  jointCells,
  lengthWords,
  pinionWords,
  rideWords,
  rippleWords,
  speedWords,
} from '../../words/driveline.js';
import { el, write } from '../dom.js';
import { factsOf, figureOf } from '../facts.js';
import type { Figure } from '../facts.js';
import type { Page, Panel } from '../page.js';
import { capital } from './verdict.js';

export function drivelinePanel(page: Page, driveline: Driveline): Panel {
  const { telling } = page;
  const lead = el('p', { class: 'lead' });
  const list = el('ol', {
    class: 'figures',
    attrs: { 'aria-label': 'What the driveline must keep' },
  });
  const facts = factsOf(['Allowed', 'Length', 'Speed', 'Ripple', 'Pinion']);
  let rows: readonly Figure[] = [];
  const update = () => {
    const { position } = page.state;
    const standing = drivelineAt(driveline, position);
    const checks = drivelineChecks(driveline, standing);
    const best = bestPinion(driveline, position);
    const told = { driveline, standing, ...(best && { best }) };
    const broken = checks.filter((check) => !isKept(check)).length;
    const short = `Does not work: ${broken} of ${checks.length} not kept.`;
    write(lead, broken === 0 ? `Works. ${rideWords(told)}.` : short);
    // What is asked is the driveline's, not the position's.
    if (rows.length === 0) {
      rows = checks.map((check) => figureOf(capital(checkCells(check, telling).called)));
      list.append(...rows.map(({ element }) => element));
    }
    checks.forEach((check, i) => {
      const { is, may } = checkCells(check, telling);
      const ways = wayWords(check, standing, page.scenario);
      rows[i]!.show(is, [...doubtsOf(check), ...ways, may], !isKept(check));
    });
    facts.tell([
      allowedWords(told),
      lengthWords(told, telling),
      speedWords(told),
      rippleWords(standing.states),
      pinionWords(told, telling),
    ]);
  };
  return { element: el('div', { class: 'rows' }, lead, list, facts.element), update };
}

function doubtsOf(check: DrivelineCheck): string[] {
  if (isKept(check)) return [];
  return ['min' in check && check.value < check.min ? 'too little' : 'too much'];
}

/** Which way the shaft bends at a joint in the two views; nothing of what is no joint. */
function wayWords(
  check: DrivelineCheck,
  { states }: DrivelineStanding,
  scenario: Page['scenario'],
): string[] {
  if (check.of !== 'joint angle') return [];
  const one = states.find(({ state }) => state === check.state)!;
  const { side, plan } = jointCells(check.joint === 'front' ? one.front : one.rear!, scenario);
  return [`side ${side}, plan ${plan}`];
}
