import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { optionSets } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';

const ROOM = new URL('../../scenarios/', import.meta.url);
const files = readdirSync(ROOM).filter((name) => name.endsWith('.yaml'));

function read(name: string) {
  return readScenario(readFileSync(new URL(name, ROOM), 'utf8'), 'yaml');
}

describe('our own scenarios', () => {
  it('are at least three', () => {
    expect(files.length).toBeGreaterThanOrEqual(3);
  });

  it.each(files)('%s reads without an error or a warning', (name) => {
    const { scenario, problems } = read(name);
    expect(problems).toEqual([]);
    expect(scenario?.rulebook).toBe('common practice');
  });

  it('has a demo of 20 engine solids, 15 chassis solids and the five choices', () => {
    const { scenario } = read('orchard-hauler.yaml');
    const solids = (side: string) =>
      scenario!.parts.filter((one) => one.side === side).flatMap((one) => one.solids).length;
    expect(solids('engine')).toBeGreaterThanOrEqual(20);
    expect(solids('chassis')).toBeGreaterThanOrEqual(15);
    expect(scenario!.choices.map((one) => one.name)).toEqual([
      'oil filter',
      'fan',
      'headers',
      'steering valve',
      'mounts',
    ]);
    expect([...optionSets(scenario!)]).toHaveLength(2 * 3 * 3 * 2 * 2);
  });
});
