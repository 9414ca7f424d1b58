import { describe, expect, it } from 'vitest';
import { FIRST_SCREEN, placeReport } from '../../src/cli/report/answer.js';
import type { Report } from '../../src/cli/report/answer.js';
import { gapsReport } from '../../src/cli/report/gaps.js';
import { verdict } from '../../src/cli/report/headline.js';
import { print } from '../../src/cli/report/lines.js';
import { columns } from '../../src/cli/report/text.js';
import { wantsWords } from '../../src/cli/report/words.js';
import type { Telling } from '../../src/cli/report/words.js';
import type { PlaceAnswer } from '../../src/solver/answer.js';
import { part } from '../model/sample-bay.js';
import {
  at,
  fitting,
  INCH,
  notFitting,
  open,
  placement,
  reading,
  readings,
  scenario,
  standing,
  telling,
} from './sample.js';

const ASKED = { file: 'scenarios/a.yaml', pins: {}, options: [], keep: 0 };

function report(
  answer: PlaceAnswer,
  over: Partial<Report> = {},
  told: Telling = telling(),
): string {
  const whole: Report = {
    answer,
    asked: ASKED,
    notDrawn: ['starter', 'brake booster'],
    warnings: [],
    all: false,
    ...over,
  };
  return print(placeReport(whole, told), told.look);
}

function firstScreen(text: string): string[] {
  return text.split('\n').slice(0, FIRST_SCREEN);
}

describe('an engine that fits', () => {
  it('reads', () => {
    expect(report(fitting())).toMatchSnapshot();
  });

  it('answers in the first line, and holds the whole answer in the first screen', () => {
    const lines = firstScreen(report(fitting()));
    expect(lines[0]).toMatch(/^FITS\. Proved best/);
    for (const word of [
      'Set',
      'Tape',
      'Do',
      'Tight',
      'Fixed',
      'Beside',
      'Wishes',
      'Not drawn',
      'Space only',
    ]) {
      expect(
        lines.some((line) => line.startsWith(word)),
        word,
      ).toBe(true);
    }
  });

  it('prints sizes that never flatter, those of the setting', () => {
    const row = report(fitting())
      .split('\n')
      .find((line) => line.endsWith('fan - radiator, fore-aft') && line.includes('half'))!;
    // 2.6987 at rest, 2.1987 moving, 2 needed, 0.1987 to spare.
    expect(row.trim().split(/ {2,}/).slice(0, 4)).toEqual(['2 11/16', '2 3/16', '2', '3/16']);
  });

  it('says that a small margin is inside what a tape can err, from either side', () => {
    const withMargin = (margin: number) => {
      const where = standing(at(25, 0, 2, 3), [reading('fan', 'radiator', 2, margin)]);
      return report(fitting({ main: placement(where, where) }));
    };
    expect(withMargin(0.12)).toContain('inside what a tape can err');
    expect(withMargin(0.13)).not.toContain('inside what a tape can err');
  });

  it('sets the engine to decimals when no tape mark near the optimum fits', () => {
    const optimum = standing(at(25.482, 0.25, 2.283, 3.1), readings(0.002));
    const setting = standing(at(25.5, 0.25, 2.25, 3.1), readings(-0.01));
    const text = report(fitting({ main: placement(optimum, setting) }));
    expect(text).toContain('25.482 back of front axle');
    expect(text).toContain('no tape mark near it fits');
    expect(text).toContain('under 1/16 to spare');
  });

  it('lists every rule and each reason once with --all', () => {
    const text = report(fitting(), { all: true });
    expect(text.match(/part \d+ - rail/g)?.length).toBe(100);
    expect(text.match(/a flexing frame/g)?.length).toBe(1);
    expect(report(fitting())).not.toContain('part 99 - rail');
  });

  it('counts the rules it does not list', () => {
    const text = report(fitting());
    const counted = [...text.matchAll(/(\d+) (?:more under 1|others have 1 or more)/g)].slice(0, 2);
    const listed = firstScreen(text).filter(
      (line) => / - .*/.test(line) && /^ {2}[\d-]/.test(line),
    );
    const sum = counted.reduce((total, match) => total + Number(match[1]), 0) + listed.length;
    expect(sum).toBe(readings(0.2).filter((one) => !one.fixed).length);
  });

  it('names a driver on the other side', () => {
    const told = telling({ scenario: scenario({ driver: 'right' }) });
    expect(report(fitting(), {}, told)).toContain('1/4 to driver');
    expect(report(fitting())).toContain('1/4 to passenger');
  });

  it('gives the reading on a level floor when the frame has rake', () => {
    const told = telling({ scenario: scenario({ rake: (1 * Math.PI) / 180 }) });
    const text = report(fitting(), {}, told).replace(/\s+/g, ' ');
    expect(text).toContain('3.1 deg tail-down (2.1 deg tail-down on a level floor)');
    expect(text).toContain('carb pad reads 2.1 deg tail-down on a level floor');
    // A frame that leans further than the engine leaves it nose-down on the floor.
    const steep = telling({ scenario: scenario({ rake: (4 * Math.PI) / 180 }) });
    expect(report(fitting(), {}, steep)).toContain('0.9 deg nose-down on a level floor');
  });

  it('tells millimetres in millimetres', () => {
    const text = report(fitting(), {}, telling({ units: 'mm' }));
    expect(text).toContain('647.7 back of front axle');
    // 0.1987 in is 5.047 mm.
    expect(text).toContain('5 to spare: fan - radiator');
  });

  it('names the least work and where it sets the engine when it is another', () => {
    const where = standing(at(24, 0, 2, 3), readings(0.15));
    const text = report(fitting({ leastWork: placement(where, where) }));
    expect(text).toContain('Least work (none): 1/8 to spare');
    expect(text).toMatch(/Less work nothing, as it stands; cut nothing; set 24 back/);
  });

  it('says which cheaper sets were not ruled out', () => {
    const text = report(
      fitting({
        cheaperUndecided: [
          [0, 0],
          [0, 1],
        ],
      }),
    );
    expect(text).toContain('cheaper, not ruled out: as it stands');
    expect(text).toContain('cheaper, not ruled out: fan: pusher');
  });
});

describe('parts that are guessed', () => {
  const base = scenario();
  const guess = (...names: string[]) =>
    telling({
      scenario: scenario({
        parts: base.parts.map((one) => (names.includes(one.name) ? { ...one, guess: true } : one)),
      }),
    });

  it('are counted in the headline and named beside what is not drawn', () => {
    const text = report(fitting(), {}, guess('fan', 'block'));
    expect(text.split('\n')[0]).toBe(
      'FITS. Proved best for the 3 parts and sizes in this file, 2 guessed.',
    );
    expect(text).toContain('Guessed   2 parts: fan, block\n');
    expect(report(fitting())).not.toMatch(/[Gg]uess/);
  });

  it('are told in every row that rests on them, and at the tightest', () => {
    const lines = report(fitting(), { all: true }, guess('fan')).split('\n');
    const rows = lines.filter((line) => /^ {2}[\d-].* - /.test(line));
    expect(rows.filter((line) => line.includes('fan -')).length).toBeGreaterThan(0);
    for (const row of rows) expect(row.endsWith(' (guess)')).toBe(row.includes('fan -'));
    expect(lines.find((line) => line.startsWith('Tight'))).toContain('(fan is a guess)');
    const both = report(fitting(), {}, guess('fan', 'radiator')).replace(/\s+/g, ' ');
    expect(both).toContain('fore-aft (both are guesses)');
  });

  it('are told however long the names, in 24 lines of 80 columns', () => {
    const long = (n: number) => `${n} ${'a very long name '.repeat(5)}`;
    const parts = Array.from({ length: 30 }, (_, i) =>
      part(long(i), i % 2 ? 'engine' : 'chassis', { guess: true }),
    );
    const told = telling({ scenario: scenario({ parts }) });
    const pairs = parts.slice(1).map(({ name }, i) => reading(long(i), name, 1, -1 + i / 99));
    const where = standing(at(25, 0, 2, 3), pairs);
    for (const answer of [
      fitting({ main: placement(where, where) }),
      notFitting({ main: placement(where, where) }),
    ]) {
      const lines = firstScreen(report(answer, {}, told));
      for (const line of lines) expect(columns(line), line).toBeLessThanOrEqual(80);
      expect(lines.some((line) => line.startsWith('Guessed   30 parts: '))).toBe(true);
      expect(lines.filter((line) => line.endsWith(' (guess)')).length).toBeGreaterThan(0);
      expect(lines.some((line) => line.startsWith('Space only'))).toBe(true);
    }
  });

  it('are told of one position too', () => {
    const told = guess('radiator');
    const where = standing(at(25, 0, 2, 3), [reading('fan', 'radiator', 2, 1)]);
    const lines = gapsReport({ standing: where, set: [0, 0], notDrawn: [], warnings: [] }, told);
    const text = print(lines, told.look);
    expect(text).toContain('Guessed   1 part: radiator\n');
    expect(text).toContain('fan - radiator (radiator is a guess)');
    expect(text).toContain('fan - radiator (guess)');
  });
});

describe('an engine that does not fit', () => {
  it('reads', () => {
    expect(report(notFitting())).toMatchSnapshot();
  });

  it('claims no more shortfall than is proved, and prints no less than there is', () => {
    const text = report(notFitting());
    // Proved 0.59, found 0.6.
    expect(text.split('\n')[0]).toBe(
      'DOES NOT FIT. Proved: at least 9/16 short with every option (no cuts tried).',
    );
    expect(text).toContain('Tight     short 5/8: fan - radiator');
  });

  it('says of each rule that falls short where it wants the engine', () => {
    const lines = report(notFitting()).split('\n');
    expect(lines.find((line) => /\d.*fan - radiator/.test(line) && line.startsWith(' '))).toContain(
      ' back ',
    );
    expect(lines.find((line) => /\d.*bell housing/.test(line))).toContain(' forward ');
  });

  it('lists all that fall short when the first screen cannot', () => {
    const many = Array.from({ length: 14 }, (_, i) => reading(`part ${i}`, 'rail', 1, -1 + i / 20));
    const best = standing(at(24, 0, 2, 3), many);
    const text = report(notFitting({ main: placement(best, best) }));
    expect(text).toContain('6 more short');
    expect(text).toContain('14 rules, the worst first');
    expect(text.match(/part 13 - rail/g)?.length).toBe(1);
  });

  it('asks only for commands that exist', () => {
    const text = report(notFitting(), {
      asked: { ...ASKED, pins: { offset: 0 }, options: [{ choice: 'fan', option: 'pusher' }] },
    });
    expect(text).toContain('berth place scenarios/a.yaml without --pin offset');
    expect(text).toContain('without --option');
    expect(text).toContain('with the options asked');
    expect(text).not.toContain('blockers');
  });

  it('points at a range that ends where a rule wants to go on', () => {
    const best = standing(at(32, 0, 2, 3), readings(-0.6));
    const text = report(notFitting({ main: placement(best, best) }));
    expect(text.replace(/\s+/g, ' ')).toContain(
      'setback is at the end of its range (32 back of front axle)',
    );
  });

  it('blames the limits when they leave no position', () => {
    const text = report(notFitting({ bestBound: -Infinity }));
    expect(text.split('\n')[0]).toContain('no position within the ranges meets the limits');
  });
});

describe('an answer that is not proved', () => {
  it('reads', () => {
    expect(report(open(), { asked: { ...ASKED, timeLimit: 5 } })).toMatchSnapshot();
  });

  it('says best and bound so far and why it stopped', () => {
    const text = report(open({ stopped: 'asked' }));
    expect(text.split('\n')[0]).toBe(
      'UNDECIDED. Best so far short 5/8; not ruled out: 7/16 to spare.',
    );
    expect(text).toContain('stopped when asked');
  });

  it('is undecided while the best is not proved, though it fits', () => {
    const { main } = fitting();
    const answer = fitting({ main: { ...main, best: 'undecided' }, stopped: 'time' });
    expect(verdict(answer)).toBe('undecided');
    expect(report(answer).split('\n')[0]).toMatch(/^UNDECIDED\. It fits, 3\/16 to spare/);
  });

  it('bears a search that had found nothing', () => {
    const nothing = standing(at(25, 0, 2, 3), []);
    const none = { ...nothing, margin: -Infinity, fits: false };
    const answer = open({
      main: placement(none, none, { fits: 'undecided' }),
      bestBound: Infinity,
    });
    expect(report(answer)).toMatch(
      /^UNDECIDED\. Best so far nothing found; not ruled out: no bound/,
    );
  });
});

describe('where a rule wants the engine', () => {
  const wants = (setback: number, offset: number, height: number, pitch: number) =>
    wantsWords({ setback, offset, height, pitch }, scenario());
  it.each([
    [[1, 0, 0, 0], 'back'],
    [[-1, 0, 0, 0], 'forward'],
    [[0, 1, 0, 0], 'passenger'],
    [[0, -1, 0, 0], 'driver'],
    [[0, 0, 1, 0], 'up'],
    [[0, 0, -1, 0], 'down'],
    [[0, 0, 0, 500], 'tail down'],
    [[0, 0, 0, -500], 'tail up'],
    [[0.8, 0.6, 0, 0], 'back, passenger'],
    [[0.95, 0.1, 0.1, 0], 'back'],
    [[0, 0, 0, 0], ''],
  ] as const)('%j is %s', ([setback, offset, height, pitch], words) => {
    expect(wants(setback, offset, height, pitch)).toBe(words);
  });
});

describe('absurd names', () => {
  const long = 'a very long name '.repeat(12);
  const ansi = '\u001b[31mred\u001b[0m\r\nnext\u202e';
  const wide = '風扇'.repeat(60);

  it.each([
    ['long', long],
    ['without a space', 'x'.repeat(200)],
    ['with terminal sequences', ansi],
    ['wide', wide],
    ['empty', ''],
  ])('%s: every line keeps to 80 columns and the answer to 24 lines', (_, absurd) => {
    const base = scenario();
    const absurdly = scenario({
      title: absurd,
      origin: absurd,
      datums: {
        chassis: base.datums.chassis.map((datum) => ({ ...datum, name: absurd })),
        engine: base.datums.engine.map((datum) => ({ ...datum, name: absurd })),
      },
      choices: base.choices.map((choice) => ({
        name: absurd,
        options: choice.options.map((option) => ({ ...option, name: absurd })),
      })),
    });
    const rename = (answer: PlaceAnswer): PlaceAnswer => {
      const named = standing(
        at(25.4823, 0.2512, 2.2834, 3.123),
        answer.main.optimum.readings.map((one) => ({
          ...one,
          between: [absurd, absurd] as const,
          comingOut: true,
          measured: 'side-to-side' as const,
          slope: { setback: 1, offset: 1, height: 1, pitch: 0 },
          rule: { ...one.rule, why: absurd },
        })),
      );
      return {
        ...answer,
        main: { ...answer.main, optimum: named, setting: named, options: [1, 1] },
      };
    };
    for (const answer of [fitting(), notFitting(), open()]) {
      for (const plain of [true, false]) {
        const told: Telling = {
          scenario: absurdly,
          units: 'in',
          look: { width: 80, plain, colour: false },
        };
        const whole = {
          asked: { ...ASKED, file: absurd },
          warnings: [absurd],
          notDrawn: ['starter'] as const,
        };
        const text = report(rename(answer), { ...whole, all: true }, told);
        for (const line of text.split('\n')) expect(columns(line), line).toBeLessThanOrEqual(80);

        expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
        if (plain) expect(text).toMatch(/^[\x20-\x7e\n]*$/);
        expect(firstScreen(text).some((line) => line.startsWith('Space only'))).toBe(true);
      }
    }
  });
});

describe('gaps at a position', () => {
  const told = telling();
  it('reads', () => {
    const where = standing(at(25.5, 0, 2, 3), readings(-0.3).slice(0, 5));
    const lines = gapsReport({ standing: where, set: [1, 0], notDrawn: [], warnings: [] }, told);
    expect(print(lines, told.look)).toMatchSnapshot();
  });

  it('says when a coordinate is outside what the file lets it be', () => {
    const where = standing(at(33, 0, 2, 3), [reading('fan', 'radiator', 2, 1)]);
    const text = print(
      gapsReport({ standing: where, set: [0, 0], notDrawn: [], warnings: [] }, told),
      told.look,
    );
    expect(text).toContain('setback, which the file lets go from 20 back of front axle');
  });

  it('names a limit that is not kept', () => {
    const limit = { quantity: { of: 'pitch' }, min: 0, max: 0.05, why: 'driveline' } as const;
    const where = {
      ...standing(at(25, 0, 2, 4), [reading('fan', 'radiator', 2, 1)]),
      fits: false,
      limits: [{ limit, value: (4 * Math.PI) / 180, met: false }],
    };
    const text = print(
      gapsReport({ standing: where, set: [0, 0], notDrawn: [], warnings: [] }, told),
      told.look,
    );
    expect(text).toContain('pitch is 4.0 deg, must be at most 2.865 deg (driveline)');
    expect(text).toContain('a limit or range is not kept');
    const raked = { ...told, scenario: scenario({ rake: (1 * Math.PI) / 180 }) };
    const onFloor = gapsReport({ standing: where, set: [0, 0], notDrawn: [], warnings: [] }, raked);
    expect(print(onFloor, told.look).replace(/\s+/g, ' ')).toContain(
      'pitch is 4.0 deg (3.0 deg on a level floor), must be at most 2.865 deg',
    );
  });
});

describe('a tape from the file', () => {
  it('goes from an engine datum to the nearest chassis datum, and does not restate the position', () => {
    const text = report(fitting());
    // 30 - 25.5; and 26 cos 3.1 deg - 25.5 = 0.462.
    expect(text).toContain('block rear face 4 1/2 ahead of firewall face');
    expect(26 * Math.cos((3.1 * Math.PI) / 180) - 25.5).toBeCloseTo(0.462, 3);
    expect(text).toContain('pulley face 7/16 ahead of front axle');
  });

  it('turns a datum that has a height with the engine', () => {
    const base = scenario();
    const told = telling({
      scenario: scenario({
        datums: { ...base.datums, engine: [{ name: 'stud', x: -20 * INCH, z: 10 * INCH }] },
      }),
    });
    const where = standing(at(25, 0, 2, 5), [reading('fan', 'radiator', 2, 1)]);
    const text = report(fitting({ main: placement(where, where) }), {}, told);
    // Tail down lifts what is ahead of the datum: 2 + 10 cos 5 + 20 sin 5 = 13.705.
    expect(text).toContain('stud 13 11/16 above rail top');
    // 25 - 20 cos 5 + 10 sin 5 = 5.948.
    expect(text).toContain('stud 5 15/16 back of front axle');
  });
});
