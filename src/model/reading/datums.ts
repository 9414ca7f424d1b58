/** Datums, which may stand in tape words from one another: found before all that is measured. */

import { millimetres } from '../text/length.js';
import type { DatumLookup } from '../text/places.js';
import { AXES } from '../scenario.js';
import type { Axis, Datum, Scenario, Side } from '../scenario.js';
import type { RawScenario } from '../schema.js';
import { Frame } from './frame.js';
import type { Measured, Reading } from './reading.js';

type RawDatum = NonNullable<NonNullable<RawScenario['datums']>['chassis']>[string];
type Known = { readonly at: Measured } | 'open' | 'faulty';

/** Datums are looked up as they are needed, each once; one measured from itself is refused. */
class DatumBook implements DatumLookup<Measured> {
  private readonly given: Readonly<Record<Side, ReadonlyMap<string, RawDatum>>>;
  private readonly known = new Map<string, Known | 'being read'>();

  constructor(
    private readonly c: Reading,
    raw: RawScenario,
  ) {
    const all = raw.datums;
    const readable = typeof all === 'object' && all !== null;
    const of = (side: Side) =>
      new Map(readable ? c.entries(all[side], ['datums', side]) : undefined);
    this.given = { engine: of('engine'), chassis: of('chassis') };
  }

  names(side: Side): readonly string[] {
    return [...this.given[side].keys()];
  }

  find(side: Side, name: string, axis: Axis): Known {
    const key = JSON.stringify([side, name, axis]);
    const known = this.known.get(key);
    if (known === 'being read') {
      const message = `the datum '${name}' is measured from itself`;
      const path = ['datums', side, name, axis];
      this.c.say('bad length', path, message, { expected: 'a length from the origin' });
      return 'faulty';
    }
    if (known !== undefined) return known;
    this.known.set(key, 'being read');
    const found = this.read(side, name, axis);
    this.known.set(key, found);
    return found;
  }

  private read(side: Side, name: string, axis: Axis): Known {
    const path = ['datums', side, name];
    if (this.c.faulty(path)) return 'faulty';
    const raw = this.given[side].get(name)![axis];
    if (raw === undefined) return 'open';
    const at = new Frame(this.c, side, 'datum').measured(raw, [...path, axis], axis);
    return at === undefined ? 'faulty' : { at };
  }
}

/** Reads every datum; afterwards places can be read from them. */
export function readDatums(c: Reading, raw: RawScenario): Scenario['datums'] {
  const book = new DatumBook(c, raw);
  c.datums = book;
  const of = (side: Side) => book.names(side).map((name) => readDatum(c, book, side, name));
  return { chassis: of('chassis'), engine: of('engine') };
}

function readDatum(c: Reading, book: DatumBook, side: Side, name: string): Datum {
  const at = ['datums', side, name];
  // A faulty datum fixes everything, so that naming it is no second mistake.
  if (c.faulty(at)) return { name, x: 0, y: 0, z: 0 };
  const found = AXES.map((axis) => [axis, book.find(side, name, axis)] as const);
  if (found.every(([, known]) => known === 'open')) {
    c.say('missing', at, `the datum '${name}' fixes nothing`, { expected: 'x, y or z' });
  }
  const fixed = found.flatMap(([axis, known]) =>
    known === 'open' ? [] : [[axis, known === 'faulty' ? 0 : millimetres(known.at.exact)]],
  );
  const taken = found.flatMap(([axis, known]) =>
    typeof known === 'string' || known.at.taken.length === 0 ? [] : [[axis, known.at.taken]],
  );
  return {
    name,
    ...(Object.fromEntries(fixed) as Omit<Datum, 'name'>),
    ...(taken.length === 0 ? {} : { taken: Object.fromEntries(taken) as Datum['taken'] & {} }),
  };
}
