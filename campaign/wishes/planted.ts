/** Wishes in planted bays: whether each can be had, and every smallest set of options that cures it, is known. */

import { optionSetByName } from '../../src/model/asked/options-by-name.js';
import { why } from '../../src/solver/explaining/why.js';
import { between } from '../../tests/geometry/random.js';
import type { Random } from '../../tests/geometry/random.js';
import { fileOf, scenarioOf } from '../../tests/support/doc.js';
import { plant } from '../../tests/support/planted.js';
import { TOLERANCE, toEnd } from '../../tests/support/solve.js';
import { tied } from '../tied.js';
import { below, oneOf } from '../mutated/pick.js';
import type { Notes } from '../subject.js';

const INCH = 25.4;

export function plantedCase(notes: Notes, random: Random): string {
  const pitch = oneOf(random, ['pinned', 'free', 'tilted'] as const);
  const planted = plant({ random, pitch, choices: 1 + below(random, 4), play: [-1, 4] });
  const { doc, allowed } = tied(planted, random, 0.6);
  const scenario = scenarioOf(doc);
  const names = Object.keys(doc.choices!);
  const named = names.map(() => (random() < 0.25 ? below(random, 2) : undefined));
  const options = named.flatMap((option, c) =>
    option === undefined ? [] : [{ choice: names[c]!, option: option === 0 ? 'stays' : 'moved' }],
  );
  // Between what the bay leaves as it stands and what its best options do, more often than not.
  const [stands, most] = [
    planted.marginOf(planted.sets[0]!),
    Math.max(...allowed.map(planted.marginOf)),
  ];
  const margin =
    INCH * (random() < 0.8 ? between(random, stands, most) : between(random, -0.5, 2.2));
  const wants = { ranges: {}, options, margin };
  const text = JSON.stringify({ file: JSON.parse(fileOf(doc)) as unknown, wants }, null, 1);
  const goes = allowed.filter((set) =>
    named.every((option, c) => option === undefined || set[c] === option),
  );
  const found = optionSetByName(scenario, options);
  notes.hold(
    'problems' in found === (goes.length === 0),
    `options ${JSON.stringify(options)}: ${goes.length} sets have them`,
  );
  if ('problems' in found || goes.length === 0) {
    notes.count('options that cannot go together');
    return text;
  }
  const { set } = found;
  notes.hold(
    goes.some((one) => one.join() === set.join()),
    `options ${set.join()} cannot go together`,
  );
  const mm = (one: readonly number[]) => planted.marginOf(one) * INCH;
  if (allowed.some((one) => Math.abs(mm(one) - margin) < TOLERANCE)) return text;
  const answer = toEnd(why(scenario, { wants, tolerance: TOLERANCE }));
  const said = `margin >= ${margin} wished, ${mm(set)} planted under ${set.join()}`;
  notes.hold(
    answer.possible === (mm(set) > margin ? 'yes' : 'no'),
    `${said}: possible ${answer.possible}`,
  );
  if (answer.possible !== 'no') return text;
  notes.hold(answer.reasons.length > 0, `${said}: no reason given`);
  if (!answer.remediesComplete) return text;
  // A cure changes choices that are not named, and no other cure changes a part of what it changes.
  const cures = goes.filter((one) => mm(one) > margin);
  const changed = (one: readonly number[]) =>
    one.flatMap((option, c) => (option === set[c] ? [] : [c]));
  const least = cures.filter(
    (one) =>
      !cures.some(
        (other) => other !== one && changed(other).every((c) => changed(one).includes(c)),
      ),
  );
  const told = answer.remedies.map((remedy) => remedy.options.join()).sort();
  const wanted = least.map((one) => one.join()).sort();
  notes.hold(
    told.join(' | ') === wanted.join(' | '),
    `${said}: cures ${told.join(' | ')}; planted ${wanted.join(' | ')}`,
  );
  notes.count('cures judged');
  notes.count('cures', told.length);
  return text;
}
