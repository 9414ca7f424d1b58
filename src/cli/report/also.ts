/** Other places as good as the answer, each by what tells it from the answer. */

import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate } from '../../model/scenario.js';
import type { PlaceAnswer, Placement } from '../../solver/answer.js';
import { list, whole } from './lines.js';
import type { Section } from './lines.js';
import { shown } from './shown.js';
import { coordinateWords } from '../../words/where.js';
import { changes, marginWords } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** `as good: 14 3/8 back of front axle, 2 above rail top (3/16 to spare)`; nothing where there is none. */
export function alsoSection({ otherPlaces, main }: PlaceAnswer, telling: Telling): Section {
  const places = otherPlaces?.places ?? [];
  if (places.length === 0) return whole([]);
  const pieces = places.map((place) => placeWords(place, main, telling));
  pieces[0] = `as good: ${pieces[0]!}`;
  if (otherPlaces?.complete === false) pieces.push('more not ruled out');
  return list('Also', pieces, ' | ', telling.look, { least: 1, yields: 6 });
}

/** What is known of other places, where none is named. */
export function elsewhereWords({ otherPlaces }: PlaceAnswer): string {
  if (otherPlaces === undefined || otherPlaces.places.length > 0) return '';
  return otherPlaces.complete ? 'nowhere else as good; ' : 'other places as good not ruled out; ';
}

/** The coordinates, and the options, in which it is another than the answer. */
function placeWords(place: Placement, main: Placement, telling: Telling): string {
  const here = shown(main).standing.position;
  const { standing } = shown(place);
  const { position } = standing;
  const where = COORDINATES.filter((c) => isElsewhere(position[c] - here[c], c)).map((c) =>
    coordinateWords(c, position[c], telling),
  );
  const same = place.options.join() === main.options.join();
  const done = changes(place.options, telling).map(({ what }) => what);
  const options = same ? '' : ` with ${done.length === 0 ? 'nothing changed' : done.join(', ')}`;
  const open = place.best === 'undecided' ? ' so far' : '';
  return `${where.join(', ')}${options} (${marginWords(standing, telling.units)}${open})`;
}

/** Millimetres, or radians of pitch, that a setting's marks are well apart. */
const ELSEWHERE = { length: 0.01, angle: 1e-4 };

function isElsewhere(by: number, coordinate: Coordinate): boolean {
  return Math.abs(by) > (coordinate === 'pitch' ? ELSEWHERE.angle : ELSEWHERE.length);
}
