/** The mounts to make where the engine is now: from pad to boss, how long, and how the tube is cut. */

import { loadsAt, supportedUnder } from '../../geometry/mounts/load-cases.js';
import { mountAt } from '../../geometry/mounts/standing.js';
import type { MountStanding } from '../../geometry/mounts/standing.js';
import type { Mounts } from '../../model/fitup/mounts.js';
import { carried, stanceOf } from '../../model/stance.js';
import { tape } from '../../model/text/tape.js';
import { lengthOf, minus } from '../../model/vector.js';
import { loadCells, loadNotes, NO_LOADS } from '../../words/mount-loads.js';
import { cutWords, faultWords, MOUNT_CAUTION, vectorWords } from '../../words/mounts.js';
import { name } from '../../words/text.js';
import { unit } from '../../words/words.js';
import { el, write } from '../dom.js';
import { figureOf } from '../facts.js';
import type { Page, Panel } from '../page.js';
import { capital } from './verdict.js';

export function mountsPanel(page: Page, mounts: Mounts): Panel {
  const { telling } = page;
  const { units, look } = telling;
  const called = (text: string): string => capital(name(text, look, 24));
  const size = (mm: number): string => tape(mm, units, { round: 'nearest' }) + unit(units);
  const lead = el('p', { class: 'lead' });
  const made = mounts.make.map((mount) => figureOf(called(mount.name)));
  const stood = mounts.supports.filter(({ pad }) => pad !== undefined);
  const supports = stood.map((one) => figureOf(called(one.name)));
  const carrying = [...mounts.make, ...mounts.supports].map((one) => figureOf(called(one.name)));
  const notes = el('p', { class: 'hint' });
  const update = () => {
    const { position, options } = page.state;
    const mass = supportedUnder(page.scenario, options);
    const loads = { mounts, loads: loadsAt(mounts, position, mass) };
    const [heads = [], ways = [], ...rows] = loadCells(loads, telling) ?? [];
    carrying.forEach((one, i) => {
      const [, first = '', ...others] = rows[i] ?? [];
      const more = others.map((cell, k) => `${heads[k + 2]!} ${cell} (${ways[k + 2]!})`);
      one.show(first === '' ? '' : `${first} ${ways[0]!} ${ways[1]!}`, more, false);
    });
    write(
      notes,
      rows.length === 0
        ? `Loads: ${NO_LOADS}.`
        : `Forces alone: ${loadNotes(loads, telling).join('; ')}.`,
    );
    const standings = mounts.make.map((mount) => mountAt(mount, position));
    const faulty = standings.filter(({ faults }) => faults.length > 0).length;
    const count = `${faulty} of ${standings.length} cannot be made`;
    write(lead, faulty === 0 ? 'From pad to boss, and the tube:' : `${capital(count)} here.`);
    standings.forEach((one, i) => {
      const short = one.faults.length > 0;
      made[i]!.show(size(one.reach), piecesOf(one, page), short);
    });
    const stance = stanceOf(position);
    stood.forEach(({ at, pad }, i) => {
      const vector = minus(carried(stance, at), pad!);
      supports[i]!.show(size(lengthOf(vector)), [vectorWords(vector, telling)], false);
    });
  };
  const element = el(
    'div',
    { class: 'rows' },
    lead,
    el(
      'ol',
      { class: 'figures', attrs: { 'aria-label': 'Mounts' } },
      ...[...made, ...supports].map(({ element: row }) => row),
    ),
    el('h3', {}, 'What each carries'),
    el(
      'ol',
      { class: 'figures', attrs: { 'aria-label': 'Loads' } },
      ...carrying.map(({ element: row }) => row),
    ),
    notes,
    el(
      'p',
      { class: 'hint' },
      'Cuts are degrees off square, and how much longer the long side is. berth mounts writes patterns, and says what is in the way.',
    ),
    el('p', { class: 'care' }, MOUNT_CAUTION),
  );
  return { element, update };
}

/** What is wrong with it, which way it goes, and its tube. */
function piecesOf({ vector, pieces, faults }: MountStanding, { telling }: Page): string[] {
  const { units } = telling;
  const said = [...faults.map((fault) => faultWords(fault, units)), vectorWords(vector, telling)];
  if (!pieces) return said;
  const { length, cuts } = pieces.tube;
  const centre = tape(length, units, { round: 'nearest' }) + unit(units);
  return [
    ...said,
    `tube ${centre} along its centre, cut ${cutWords(cuts.base, units)} at the base and ${cutWords(cuts.upper, units)} at the top`,
  ];
}
