import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FIRST_SCREEN, placeReport } from '../../src/cli/report/answer.js';
import type { Report } from '../../src/cli/report/answer.js';
import { gapsReport } from '../../src/cli/report/gaps.js';
import { verdict } from '../../src/cli/report/headline.js';
import { print } from '../../src/cli/report/lines.js';
import { columns } from '../../src/words/text.js';
import { wantsWords } from '../../src/words/words.js';
import type { Telling } from '../../src/words/words.js';
import { stanceOf } from '../../src/model/stance.js';
import type { PlaceAnswer, Wish } from '../../src/solver/answer.js';
import type { Hoist } from '../../src/solver/measuring/hoist.js';
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
  RULED,
  scenario,
  standing,
  telling,
} from './sample.js';

const ASKED = { pins: {}, options: [], keep: 0 };

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
    unruled: RULED,
    again: [],
    ...over,
  };
  return print(placeReport(whole, told), told.look);
}

/** `1 3/16-`, `12.5` as a number. */
function valueOf(text: string): number {
  const [, sign, whole, over, under, decimal] =
    /^(-?)(?:(?:(\d+) )?(\d+)\/(\d+)|([\d.]+))[+-]?$/.exec(text)!;
  const size =
    decimal === undefined ? Number(whole ?? 0) + Number(over) / Number(under) : Number(decimal);
  return sign === '-' ? -size : size;
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
    expect(text).toContain('5 mm to spare: fan - radiator');
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
    const lines = gapsReport(
      { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED },
      told,
    );
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

  it('asks for changes to what was typed, however the command was called', () => {
    const text = report(notFitting(), {
      asked: { ...ASKED, pins: { offset: 0 }, options: [{ choice: 'fan', option: 'pusher' }] },
    });
    expect(text).toContain('leave out --pin offset; leave out --option');
    expect(text).toContain('with these options');
    expect(text).not.toContain('berth place');
    expect(text).not.toContain('blockers');
  });

  it('points at a range that ends where a rule wants to go on', () => {
    const back = { binding: true, share: 1 };
    const best = standing(at(32, 0, 2, 3), [reading('fan', 'radiator', 2, -0.6, back)]);
    const text = report(notFitting({ main: placement(best, best) }));
    expect(text.replace(/\s+/g, ' ')).toContain(
      'setback is at the end of its range (32 back of front axle)',
    );
  });

  it('points at no range where what binds holds the engine both ways, or pushes another way', () => {
    // At the end of setback: a rule pulls back and another forward, half and half.
    const held = standing(at(32, 0, 2, 3), readings(-0.6));
    // At the end of offset: what binds is fore-aft; only a rule with more room wants to the side.
    const side = { slope: stanceOf({ setback: 0, offset: 1, height: 0, pitch: 0 }) };
    const aside = standing(at(25, 2, 2, 3), [
      ...readings(-0.6),
      reading('starter', 'rail', 1, -0.1, side),
    ]);
    for (const best of [held, aside]) {
      const text = report(notFitting({ main: placement(best, best) }));
      expect(text).not.toContain('end of its range');
    }
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
    expect(report(answer)).toMatch(/^UNDECIDED\. Nothing found so far; no bound yet\./);
  });
});

describe('what is proved, and to what', () => {
  const searchOf = (answer: PlaceAnswer, units: 'in' | 'mm' = 'in') =>
    report(answer, {}, telling({ units }))
      .split('\n')
      .find((line) => line.startsWith('Search'));

  it('calls no search proved that is undecided', () => {
    expect(searchOf(open())).toContain('not proved to 1/64 in;');
    expect(searchOf(fitting())).toMatch(/ {4}proved to 1\/64 in;/);
    expect(searchOf(notFitting())).toMatch(/ {4}proved to 1\/64 in;/);
  });

  it.each([
    [INCH / 64, '1/64 in'],
    [INCH / 32, '1/32 in'],
    [INCH / 1000, '0.001 in'],
    [INCH * 1e-9, '1e-9 in'],
    [INCH / 30, '0.034 in'],
    [INCH, '1 in'],
  ])('tells a tolerance of %d mm as %s', (tolerance, words) => {
    expect(searchOf(fitting({ tolerance }))).toContain(`proved to ${words};`);
  });

  it('tells a tolerance in millimetres', () => {
    expect(searchOf(fitting({ tolerance: INCH / 64 }), 'mm')).toContain('proved to 0.4 mm;');
    expect(searchOf(fitting({ tolerance: 0.001 }), 'mm')).toContain('proved to 0.001 mm;');
  });

  it('says to let it run longer, however it was stopped', () => {
    for (const stopped of ['asked', 'time'] as const) {
      expect(report(open({ stopped }))).toContain('Next      let it run longer');
    }
    const { stopped, ...ended } = open();
    void stopped;
    expect(report(ended)).toContain('a coarser --tolerance');
    expect(report(notFitting())).not.toContain('run longer');
  });

  it('counts one box as one', () => {
    expect(report(open({ effort: { boxes: 1, gaps: 1, lps: 1 } }))).toContain('after 1 box\n');
    expect(searchOf(open({ effort: { boxes: 1, gaps: 1, lps: 1 } }))).toContain(
      '1 box, 1 gap, 1 linear program',
    );
  });
});

describe('the first line', () => {
  it('fits 80 columns whole, whatever the answer, the aim and the sizes', () => {
    let told = 0;
    for (const units of ['in', 'mm'] as const) {
      for (const short of [0.01, 1.45, 10.8, 39.97]) {
        for (const options of [[], [{ choice: 'fan', option: 'pusher' }]]) {
          const bestBound = -short * INCH;
          const where = standing(at(25, 0, 2, 3), [reading('fan', 'radiator', 2, -short)]);
          const main = placement(where, where);
          const roomy = standing(at(25, 0, 2, 3), [reading('fan', 'radiator', 2, short)]);
          const fits = (['margin', 'centre', 'low', 'back'] as const).map((aim) =>
            fitting({ aim, main: placement(roomy, roomy) }),
          );
          const late = { ...main, fits: 'undecided', best: 'undecided' } as const;
          const undecided = open({ main: late, bestBound: 39.97 * INCH });
          const answers = [notFitting({ bestBound, main }), undecided, ...fits];
          const asked = { ...ASKED, options, keep: short * INCH };
          const unruled = { standing: 153, covered: 128, parts: ['starter'], overlaps: [] };
          for (const answer of answers) {
            for (const more of [{ asked }, { asked, unruled }]) {
              const [line] = report(answer, more, telling({ units })).split('\n');
              expect(line).toMatch(/\.$/);
              expect(line).not.toMatch(/\.\.\.$/);
              told++;
            }
          }
        }
      }
    }
    expect(told).toBe(2 * 4 * 2 * 6 * 2);
  });
});

describe('what no rule looks at', () => {
  const unruled = {
    standing: 4,
    covered: 2,
    parts: ['starter', 'post'],
    overlaps: [{ between: ['starter', 'post'] as const, depth: 2.45 * INCH }],
  };

  it('is said in the first lines, and counted as no part of the proof', () => {
    for (const answer of [fitting(), notFitting(), open()]) {
      const [first, second, third] = report(answer, { unruled }).split('\n');
      expect(first).not.toContain('4 parts and sizes');
      expect(second).toBe('Overlap   starter stands 2 1/2 inside post');
      expect(third).toBe('No rule   2 parts no rule covers: starter, post');
    }
    expect(report(fitting(), { unruled })).toMatch(
      /^FITS\. Proved best for the 2 of 4 parts that a rule covers\.\n/,
    );
  });

  it('is not spoken of where every part has a rule', () => {
    expect(report(fitting())).not.toContain('No rule');
  });

  it('keeps to two lines, however many there are', () => {
    const parts = Array.from({ length: 60 }, (_, i) => `bracket number ${i}`);
    const lines = firstScreen(report(fitting(), { unruled: { ...unruled, parts } }));
    const at = lines.findIndex((line) => line.startsWith('No rule'));
    expect(lines[at + 1]).toMatch(/ more$/);
    expect(lines[at + 2]).toMatch(/^Set/);
  });

  it('is said of a position measured too', () => {
    const standingThere = standing(at(25, 0, 2, 3), [reading('fan', 'radiator', 2, 1)]);
    const gaps = { standing: standingThere, set: [0, 0], notDrawn: [], warnings: [], unruled };
    const told = telling();
    expect(print(gapsReport(gaps, told), told.look)).toContain('starter stands 2 1/2 inside post');
  });

  it('leaves nothing to prove where no rule joins any two parts', () => {
    const where = { ...standing(at(25, 0, 2, 3), []), margin: Infinity, fits: true };
    const main = placement(where, where, { best: 'undecided', bound: Infinity });
    const text = report(fitting({ main, bestBound: Infinity, wishes: [] }));
    expect(text).toMatch(/^UNDECIDED\. No rule joins any two parts here, so there is nothing/);
    expect(text).not.toContain('bound');
  });
});

describe('sizes in a row', () => {
  const rowOf = (needed: number, gap: number, units: 'in' | 'mm' = 'in') => {
    const where = standing(at(25, 0, 2, 3), [reading('fan', 'radiator', needed, gap - needed)]);
    const lines = report(fitting({ main: placement(where, where) }), {}, telling({ units }));
    const [head, row] = lines.split('\n').filter((line) => /^ {2}\S/.test(line));
    const first = head!.includes('moving') ? 1 : 0;
    const cells = row!.trim().split(/ {2,}/);
    return { head: head!, sizes: cells.slice(first, first + 3) };
  };

  it('are marked where they would contradict the verdict, and the heading says how', () => {
    // Rounded they would read 9/16, 5/8 needed: an eighth of nothing, yet it fits.
    const { head, sizes } = rowOf(0.591, 0.623);
    expect(sizes).toEqual(['9/16+', '5/8-', '0']);
    expect(head).toContain('(+ a bit over, - a bit under)');
    // 30 mm: 1 13/16 less 1 3/16 is not 11/16.
    expect(rowOf(30 / INCH, 1.871).sizes).toEqual(['1 13/16+', '1 3/16-', '11/16']);
  });

  it('are plain where they subtract', () => {
    expect(rowOf(2, 2.1987)).toEqual({
      head: expect.not.stringContaining('bit over') as string,
      sizes: ['2 3/16', '2', '3/16'],
    });
  });

  it('have the need as the file gives it, and the gap as finely where that tells more', () => {
    expect(rowOf(19.25, 20).sizes[1]).toBe('19 1/4');
    expect(rowOf(5 / 32, 0.16).sizes).toEqual(['5/32', '5/32', '0']);
    expect(rowOf(12.5 / INCH, 13.7 / INCH, 'mm').sizes).toEqual(['13.5', '12.5', '1']);
  });

  it('never say less room than the verdict nor more than there is', () => {
    let marked = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4000 }).map((n) => n / 1000),
        fc.integer({ min: -2000, max: 2000 }).map((n) => n / 1000),
        fc.constantFrom('in' as const, 'mm' as const),
        (needed, margin, units) => {
          const { sizes } = rowOf(needed, needed + margin, units);
          const [gap, need] = sizes.map(valueOf);
          const scale = units === 'in' ? 1 : INCH;
          const blur = 1e-6;
          expect(gap).toBeLessThanOrEqual((needed + margin) * scale + blur);
          expect(need).toBeGreaterThanOrEqual(needed * scale - blur);
          const isMarked = /[+-]$/.test(sizes[0]!) || /[+-]$/.test(sizes[1]!);
          if (isMarked) marked++;
          if (margin > 1e-6 && !isMarked) expect(gap! - need!).toBeGreaterThan(-blur);
        },
      ),
      { numRuns: 300 },
    );
    expect(marked).toBeGreaterThan(10);
  });

  it('say of a rule that binds without gain that it gains nothing', () => {
    const some = { binding: true, share: 1 };
    const two = [
      reading('fan', 'radiator', 2, 0.5, some),
      reading('pan', 'rail', 1, 0.5, { binding: true }),
    ];
    const where = standing(at(25, 0, 2, 3), two);
    const text = report(fitting({ main: placement(where, where) }));
    expect(text).toMatch(/ all +fan - radiator/);
    expect(text).toMatch(/ 0% +pan - rail/);
    expect(text).not.toContain('yes');
  });
});

describe('a small margin', () => {
  it('is in doubt wherever it is told', () => {
    const small = standing(at(25, 0, 2, 3), [
      reading('fan', 'radiator', 2, 0.07),
      reading('starter', 'header', 1, 0.1, { fixed: true }),
    ]);
    const main = placement(small, small);
    const text = report(fitting({ main, asItStands: main })).replace(/\s+/g, ' ');
    expect(text).toContain('As it stands: 1/16 to spare (inside tape error)');
    expect(text).toContain('Roomiest: 1/16 to spare (inside tape error)');
    expect(text).toContain('Centred leaves 1/16 (inside tape error)');
    expect(text).toContain('1 rule: 1/16 to spare (inside tape error), starter - header');
  });
});

describe('one word for one thing', () => {
  it('keeps level for pitch', () => {
    const even = standing(at(0, 0, 0, 0), [reading('fan', 'radiator', 2, 1)]);
    const answer = fitting({ main: placement(even, even), wishes: [] });
    const bare = telling({ scenario: scenario({ datums: { chassis: [], engine: [] } }) });
    const said = report(answer, {}, bare).replace(/\s+/g, ' ');
    expect(said).toContain(
      'Set in line with the origin, on centre, as high as the origin, level (crank',
    );
    const withDatums = report(answer);
    expect(withDatums.match(/level/g)).toHaveLength(1);
    const raked = telling({ scenario: scenario({ rake: Math.PI / 180 }) });
    expect(report(answer, {}, raked)).toContain('0.0 deg (1.0 deg nose-down on a level floor)');
  });

  it('says how low and how far back from which datum', () => {
    const text = report(fitting());
    expect(text).toContain('Lowest 1 3/4 above rail top');
    expect(text).toContain('Rearmost 26 3/16 back of front axle');
    const low: Wish = {
      aim: 'low',
      best: 'proved',
      fits: 'yes',
      bound: 0,
      standing: standing(at(25, 0, 0, 3), readings(0)),
    };
    expect(report(fitting({ wishes: [low] }))).toContain('Lowest as high as rail top');
  });

  it('says what the position is of', () => {
    const text = report(fitting());
    expect(text).toMatch(/^Set .*\n.*\(crank centreline at the block's rear face\)$/m);
  });

  it('asks for every rule where no place keeps them, not for 0 to spare', () => {
    const missed = fitting({ aimMissed: 'no' });
    expect(report(missed)).toContain('Asked     no place keeps every rule;');
    const kept = report(missed, { asked: { ...ASKED, keep: INCH } });
    expect(kept).toContain('Asked     no place leaves 1 to spare;');
  });
});

describe('on a terminal', () => {
  const told = (rows: number, over: Partial<Report> = {}) =>
    report(fitting(), { screen: rows, ...over })
      .trimEnd()
      .split('\n');

  it('fills no more than the screen, and keeps the answer', () => {
    for (const rows of [16, 19, 23, 24]) {
      const lines = told(rows, { warnings: ['a.yaml:3:1  a doubt', 'another'] });
      expect(lines.length).toBeLessThanOrEqual(rows);
      expect(lines[0]).toMatch(/^FITS\./);
      expect(lines.at(-1)).toMatch(/^Space only/);
      if (rows > 18) expect(lines.join('\n')).toMatch(/^Tape .*\n.*read at the crank/m);
      expect(lines).toContain('Warning   2 about this file: add --all to see');
      expect(lines.join('\n')).toContain('(--all)');
    }
  });

  it('prints everything where everything fits', () => {
    expect(told(60).join('\n')).toBe(report(fitting()).trimEnd());
  });
});

describe('the tape', () => {
  it('is the last to give way, with an aim and a small margin too', () => {
    const tiny = standing(at(25, 0.25, 2, 3), [
      ...readings(0.01),
      ...['brake line', 'fuel line'].map((one) => reading('left header', one, 1, 0.2)),
    ]);
    const answer = fitting({
      aim: 'low',
      main: placement(tiny, tiny, { options: [1, 1], hours: 9 }),
    });
    const lines = firstScreen(report(answer));
    expect(lines.find((line) => line.startsWith('Tape'))).not.toContain('more');
    expect(lines.some((line) => line.startsWith('Space only'))).toBe(true);
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
          slope: stanceOf({ setback: 1, offset: 1, height: 1, pitch: 0 }),
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
          asked: ASKED,
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
    const lines = gapsReport(
      { standing: where, set: [1, 0], notDrawn: [], warnings: [], unruled: RULED },
      told,
    );
    expect(print(lines, told.look)).toMatchSnapshot();
  });

  it('says when a coordinate is outside what the file lets it be', () => {
    const where = standing(at(33, 0, 2, 3), [reading('fan', 'radiator', 2, 1)]);
    const text = print(
      gapsReport(
        { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED },
        told,
      ),
      told.look,
    );
    expect(text).toContain('setback, which the file lets go from 20 back of front axle');
  });

  it('says of a coordinate that the file pins where it is pinned', () => {
    const base = scenario();
    const pinned = scenario({ position: { ...base.position, pitch: { min: 0, max: 0 } } });
    const where = standing(at(25, 0, 2, 3), [reading('fan', 'radiator', 2, 1)]);
    const text = print(
      gapsReport(
        { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED },
        telling({ scenario: pinned }),
      ),
      told.look,
    );
    expect(text).toContain('Outside   pitch, which the file pins: level');
  });

  it('counts one rule that falls short as one', () => {
    const where = standing(at(25, 0, 2, 3), [reading('a', 'b', 1, -1), reading('a', 'c', 1, 1)]);
    const gaps = { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED };
    expect(print(gapsReport(gaps, told), told.look)).toContain('1 of 2 rules falls short');
  });

  it('names a limit that is not kept', () => {
    const limit = { quantity: { of: 'pitch' }, min: 0, max: 0.05, why: 'driveline' } as const;
    const where = {
      ...standing(at(25, 0, 2, 4), [reading('fan', 'radiator', 2, 1)]),
      fits: false,
      limits: [{ limit, value: (4 * Math.PI) / 180, met: false }],
    };
    const text = print(
      gapsReport(
        { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED },
        told,
      ),
      told.look,
    );
    expect(text).toContain('pitch is 4.0 deg, must be at most 2.865 deg (driveline)');
    const raked = { ...told, scenario: scenario({ rake: (1 * Math.PI) / 180 }) };
    const onFloor = gapsReport(
      { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED },
      raked,
    );
    expect(print(onFloor, told.look).replace(/\s+/g, ' ')).toContain(
      'pitch is 4.0 deg (3.0 deg on a level floor), must be at most 2.865 deg',
    );
  });

  it('tells a height as a tape does, away from its limit', () => {
    const heightOf = (value: number, min: number, max: number) => {
      const quantity = {
        of: 'height above',
        what: { part: 'oil pan' },
        above: 'rail top',
      } as const;
      const limit = { quantity, min: min * INCH, max: max * INCH };
      const where = {
        ...standing(at(25, 0, 2, 4), [reading('fan', 'radiator', 2, 1)]),
        fits: false,
        limits: [{ limit, value: value * INCH, met: false }],
      };
      const gaps = { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED };
      return print(gapsReport(gaps, told), told.look);
    };
    expect(heightOf(-4.9367, -4.5, Infinity)).toContain(
      'Limits    oil pan is 4 15/16 below rail top, may be no lower than 4 1/2 below',
    );
    expect(heightOf(-4.9367, -4.93, Infinity)).toContain('oil pan is 4 15/16 below rail top');
    expect(heightOf(19.02, -Infinity, 19)).toContain(
      'oil pan is 19 1/16 above rail top, may be no higher than 19 above',
    );
  });

  it('says that a limit is what is not kept', () => {
    const limit = { quantity: { of: 'setback' }, min: 0, max: 25 * INCH } as const;
    const where = {
      ...standing(at(25.03, 0, 2, 4), [reading('fan', 'radiator', 2, 1)]),
      fits: false,
      limits: [{ limit, value: 25.03 * INCH, met: false }],
    };
    const text = print(
      gapsReport(
        { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED },
        told,
      ),
      told.look,
    );
    expect(text).toContain('setback is 25 1/16, must be at most 25');
    expect(text).toContain('a limit or range is not kept');
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

describe('room to work', () => {
  const room = { x: { min: 0, max: 0 }, y: { min: 0, max: 0 }, z: { min: -4 * INCH, max: 0 } };
  const out = (part: string, other: string, margin: number, over: object = {}) =>
    reading(part, other, 0, margin, { comingOut: true, withdrawn: { part, room }, ...over });
  const said = (...rows: ReturnType<typeof out>[]) =>
    report(
      fitting({
        main: placement(standing(at(25, 0, 2, 3), rows), standing(at(25, 0, 2, 3), rows)),
      }),
    );

  it('says of each part that comes out which way, and what is nearest', () => {
    const text = said(
      out('oil filter', 'crossmember', 0.75),
      out('oil filter', 'left rail', 2),
      out('starter', 'heater', 1, {
        withdrawn: { part: 'starter', room: { ...room, x: { min: -6 * INCH, max: 0 } } },
      }),
    );
    expect(text).toContain(
      'Room      oil filter comes out down, 3/4 to spare at crossmember |\n' +
        '          starter comes out forward and down, 1 to spare at heater\n',
    );
    expect(text).toContain('oil filter (out down) - crossmember');
  });

  it('says what is in the way, whichever side the part is of', () => {
    const sideways = { ...room, y: { min: 0, max: 9 * INCH }, z: { min: 0, max: 0 } };
    const text = said(
      out('oil filter', 'crossmember', -0.5),
      out('block', 'heater', 2, { withdrawn: { part: 'heater', room: sideways } }),
    );
    expect(text).toContain('oil filter does not come out down, short 1/2: crossmember is in the');
    expect(text).toContain('heater comes out to passenger, 2 to spare at block');
  });
});

describe('the way in', () => {
  const stop = at(20, 0, 20, 10);
  const told = telling({
    scenario: scenario({ hoistPath: { off: [], without: [], gap: 0, through: [stop, stop] } }),
  });
  const worst = {
    between: ['oil pan', 'crossmember'],
    position: at(16.03, 0, 20, 5),
    leg: [0, 1],
  } as const;
  const hoist = { fits: 'no', margin: -1.2 * INCH, needed: 0, worst } as const;
  const line = (way: Hoist) => {
    const text = report(fitting(), { hoist: way }, told).replace(/\n {10}/g, ' ');
    return text.split('\n').find((one) => one.startsWith('Hoist'));
  };

  it('says what is caught, by how much and where, on the first screen', () => {
    expect(line(hoist)).toBe(
      'Hoist     caught: oil pan - crossmember, short 1 1/4, on the way from position 1 to 2 ' +
        '(near 16 back of front axle, on centre, 20 above rail top, 5.0 deg tail-down)',
    );
    const screen = firstScreen(report(fitting(), { hoist }, told));
    expect(screen.some((one) => one.startsWith('Hoist     caught: oil pan'))).toBe(true);
    expect(screen.at(-1)).not.toBe('');
    const there = { ...hoist, worst: { ...worst, leg: [1, 2] } } as const;
    expect(line(there)).toContain('on the way from position 2 to its place (near');
    expect(line({ ...hoist, fits: 'undecided' })).toContain('may be caught: oil pan');
  });

  it('says what is to spare where it goes in', () => {
    const spare = { ...hoist, fits: 'yes', margin: 0.4 * INCH } as const;
    expect(line({ ...spare, worst: { ...worst, leg: [1, 1] } })).toBe(
      'Hoist     goes in with 3/8 to spare: oil pan - crossmember, at position 2',
    );
    expect(line({ ...spare, worst: { ...worst, leg: [2, 2] } })).toContain(
      'crossmember, in its place',
    );
    expect(line({ fits: 'yes', margin: Infinity, needed: 0 })).toContain('nothing in its way');
  });

  it('is said of a place measured too, and only where the file has a path', () => {
    const where = standing(at(25, 0, 2, 3), readings(0.2));
    const gaps = { standing: where, set: [0, 0], notDrawn: [], warnings: [], unruled: RULED };
    expect(print(gapsReport({ ...gaps, hoist }, told), told.look)).toContain('Hoist     caught');
    expect(print(gapsReport(gaps, told), told.look)).not.toContain('Hoist');
    expect(report(fitting())).not.toContain('Hoist');
  });
});
