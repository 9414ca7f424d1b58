/** Tapering frame rails as the file draws them: one solid between each two stations. */

import type { Path, RailStation, Solid } from '../scenario.js';
import type { RawSolid } from '../schema.js';
import type { Frame } from './frame.js';
import { all } from './items.js';
import { FLAT_MM } from './profile.js';

type RawStation = NonNullable<RawSolid['rail']>['stations'][number];

/** Reads a rail; undefined once a problem is said. */
export function readRail(
  f: Frame,
  raw: NonNullable<RawSolid['rail']>,
  at: Path,
): readonly Solid[] | undefined {
  const path = [...at, 'stations'];
  const stations = all(raw.stations, (station, i) => readStation(f, station, [...path, i]));
  if (stations === undefined) return undefined;
  if (stations.length < 2) {
    f.c.say('bad solid', path, 'a rail needs two stations or more');
    return undefined;
  }
  const stretches = stations.slice(1).map((to, i) => ({ from: stations[i]!, to }));
  for (const [i, { from, to }] of stretches.entries()) {
    const here = [...path, i + 1];
    if (to.x - from.x <= FLAT_MM) {
      f.c.say('bad solid', [...here, 'x'], 'this station is not behind the one before it', {
        expected: 'stations from front to back',
      });
      return undefined;
    }
    if (to.outside > to.inside !== from.outside > from.inside) {
      f.c.say('bad solid', here, 'the rail changes from one side of the frame to the other');
      return undefined;
    }
  }
  return stretches.map((stretch) => ({ shape: 'rail', ...stretch }));
}

/** One station: its two faces and its top and bottom, checked to have a thickness each way. */
function readStation(f: Frame, raw: RawStation, at: Path): RailStation | undefined {
  const x = f.coordinate(raw.x, [...at, 'x'], 'x');
  const inside = f.coordinate(raw.inside, [...at, 'inside'], 'y');
  const outside = f.coordinate(raw.outside, [...at, 'outside'], 'y');
  const top = f.coordinate(raw.top, [...at, 'top'], 'z');
  const bottom = f.coordinate(raw.bottom, [...at, 'bottom'], 'z');
  if (x === undefined || inside === undefined || outside === undefined) return undefined;
  if (top === undefined || bottom === undefined) return undefined;
  const bad = (key: string, message: string, expected: string) => {
    f.c.say('bad solid', [...at, key], message, { expected });
    return undefined;
  };
  if (Math.abs(outside - inside) <= FLAT_MM) {
    return bad('outside', 'the rail has no thickness here', 'more than inside');
  }
  // On the left both are below 0, and the outside is the lesser.
  const middle = (inside + outside) / 2;
  if (middle * (outside - inside) < 0) {
    return bad('inside', 'inside is further from the centre than outside', 'the lesser distance');
  }
  if (top - bottom > FLAT_MM) return { x, inside, outside, top, bottom };
  const upside = top < bottom - FLAT_MM;
  return bad(
    'top',
    upside ? 'top is below bottom' : 'the rail has no height here',
    'more than bottom',
  );
}
