import { describe, expect, it } from 'vitest';
import { KINDS } from '../../src/model/kinds.js';
import type { Kind } from '../../src/model/kinds.js';
import { notDrawn } from '../../src/model/notdrawn.js';
import type { Part, Scenario } from '../../src/model/scenario.js';
import { bay, choice, option, part } from './sample-bay.js';

const ON_CHASSIS: readonly Kind[] = ['electric fan', 'suspension', 'axle', 'steering valve'];

function drawn(...kinds: Kind[]): Part[] {
  return kinds.map((kind) =>
    part(kind, ON_CHASSIS.includes(kind) ? 'chassis' : 'engine', { kind }),
  );
}

const missing = (over: Partial<Scenario>) => notDrawn(bay(over));

/** What is asked for in the first bay and not in the second, and the other way round. */
function change(before: Partial<Scenario>, after: Partial<Scenario>) {
  const [a, b] = [missing(before), missing(after)];
  return {
    gone: a.filter((kind) => !b.includes(kind)),
    come: b.filter((kind) => !a.includes(kind)),
  };
}

describe('what is not drawn', () => {
  it('is in the order of the kinds, and nothing once all are drawn or not fitted', () => {
    const all = missing({});
    expect(all.length).toBeGreaterThan(30);
    expect(all).toEqual(KINDS.filter((kind) => all.includes(kind)));
    expect(missing({ parts: drawn(...KINDS) })).toEqual([]);
    expect(missing({ notFitted: KINDS })).toEqual([]);
  });

  it('a drawn kind is not asked for, under whatever option', () => {
    const brought = option('b', { add: drawn('starter') });
    expect(missing({})).toContain('starter');
    expect(missing({ parts: drawn('starter') })).not.toContain('starter');
    expect(missing({ choices: [choice('c', option('a'), brought)] })).not.toContain('starter');
  });

  it.each<[string, Partial<Scenario>, Partial<Scenario>, Kind[], Kind[]]>([
    [
      'an electric fan spares the mechanical one',
      {},
      { parts: drawn('electric fan') },
      ['mechanical fan'],
      [],
    ],
    [
      'a mechanical fan wants its shroud',
      {},
      { parts: drawn('mechanical fan') },
      ['mechanical fan'],
      ['fan shroud'],
    ],
    [
      'without a mechanical fan an electric one blows',
      {},
      { notFitted: ['mechanical fan'] },
      ['mechanical fan'],
      ['electric fan'],
    ],
    [
      'without a radiator nothing is wet',
      {},
      { notFitted: ['radiator'] },
      ['mechanical fan', 'radiator', 'water pump', 'hose', 'heater'],
      [],
    ],
    [
      'without a transmission nothing turns or shifts',
      {},
      { notFitted: ['transmission'] },
      ['transmission', 'bell housing', 'shifter', 'clutch linkage', 'driveshaft'],
      [],
    ],
    [
      'a carburettor has its pump, and what works it',
      {},
      { parts: drawn('carburettor') },
      [],
      ['fuel pump', 'throttle linkage'],
    ],
    ['a turbocharger has its oil', {}, { parts: drawn('turbocharger') }, [], ['oil line']],
    [
      'a steering valve has its pump',
      {},
      { parts: drawn('steering valve') },
      [],
      ['power steering pump'],
    ],
    ['a beam axle sits on springs', {}, { parts: drawn('axle') }, ['axle'], ['spring']],
    ['arms spare the axle', {}, { parts: drawn('suspension') }, ['axle'], []],
    ['without an axle there are arms', {}, { notFitted: ['axle'] }, ['axle'], ['suspension']],
  ])('%s', (_, before, after, gone, come) => {
    const found = change(before, after);
    expect([...found.gone].sort()).toEqual([...gone].sort());
    expect([...found.come].sort()).toEqual([...come].sort());
  });

  it('a transfer case is asked for where a shaft runs forward past the engine, and only there', () => {
    const shaft = (from: number, to: number) =>
      part('shaft', 'chassis', {
        kind: 'driveshaft',
        solids: [{ shape: 'tube', from: [from, 5, -3], to: [to, 5, -3], diameter: 2 }],
      });
    const position = { ...bay().position, setback: { min: 20, max: 30 } };
    const ask = (one: Part) => missing({ position, parts: [one] }).includes('transfer case');
    expect(ask(shaft(3, 60))).toBe(true);
    expect(ask(shaft(60, 120))).toBe(false);
    expect(missing({ position })).not.toContain('transfer case');
    const parts = [shaft(3, 60), ...drawn('transfer case')];
    expect(missing({ position, parts })).not.toContain('transfer case');
  });

  it('a clutch linkage is asked for unless the transmission is called automatic', () => {
    const called = (name: string) =>
      missing({ parts: [part(name, 'engine', { kind: 'transmission' })] });
    expect(called('transmission')).toContain('clutch linkage');
    expect(called('short manual')).toContain('clutch linkage');
    expect(called('Automatic transmission')).not.toContain('clutch linkage');
    expect(called('Automatic transmission')).toContain('shifter');
    const brought = option('automatic', { replace: drawn('transmission') });
    const choices = [choice('transmission', option('as it stands'), brought)];
    expect(missing({ parts: drawn('transmission'), choices })).not.toContain('clutch linkage');
  });
});
