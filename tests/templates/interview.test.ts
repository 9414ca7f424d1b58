/** The interview as data, its answers as text, and the guide that is taken under the vehicle. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answersText, readAnswers } from '../../src/templates/answers.js';
import { CAUTION, formText } from '../../src/templates/form.js';
import { nextQuestion, take } from '../../src/templates/interview.js';
import { printedPolicy } from '../../src/cli/writing/policy.js';
import { formPage } from '../../src/templates/page.js';
import { QUESTIONS } from '../../src/templates/questions.js';
import type { QuestionKey } from '../../src/templates/questions.js';
import { isChoice, readReply, sizesOf } from '../../src/templates/reply.js';
import type { Answers } from '../../src/templates/reply.js';
import { scenarioText } from '../../src/templates/write.js';

const NONE: Answers = new Map();

/** Types lines one after the other; what is refused changes nothing. */
function type(lines: readonly string[], from: Answers = NONE): Answers {
  return lines.reduce<Answers>((answers, line) => {
    const turn = take(answers, line);
    return turn.turn === 'on' ? turn.answers : answers;
  }, from);
}

const word = fc.constantFrom(
  '',
  '',
  '',
  '30',
  '29 1/2',
  '1',
  '2',
  'mm',
  'van',
  '-3',
  '700 mm',
  'x',
);

describe('the interview', () => {
  it('asks 25 questions at most, one measurement each', () => {
    expect(QUESTIONS.length).toBeLessThanOrEqual(25);
    expect(new Set(QUESTIONS.map(({ key }) => key)).size).toBe(QUESTIONS.length);
    const sizes = QUESTIONS.filter((question) => !isChoice(question));
    expect(Object.keys(sizesOf(NONE)).sort()).toEqual(sizes.map(({ key }) => key).sort());
  });

  it('goes back one answer for each back, whatever was typed', () => {
    let undone = 0;
    fc.assert(
      fc.property(fc.array(word, { maxLength: 40 }), (lines) => {
        const before = type(lines);
        const next = nextQuestion(before);
        if (next === undefined) return;
        const turn = take(before, '');
        expect(turn.turn).toBe('on');
        if (turn.turn !== 'on') return;
        expect(type(['back'], turn.answers)).toEqual(before);
        undone++;
      }),
    );
    expect(undone).toBeGreaterThan(50);
  });

  it('keeps all that was answered when an answer is bad, asks for help, or stops', () => {
    const before = type(['in', 'V6']);
    expect(take(before, 'sideways')).toMatchObject({ turn: 'again' });
    expect(take(before, '?')).toMatchObject({ turn: 'again' });
    expect(take(before, 'stop')).toEqual({ turn: 'stop' });
    expect(take(NONE, 'back')).toMatchObject({ turn: 'again' });
    expect([...before.keys()]).toEqual(['units', 'engine']);
  });

  it('reads a choice by name, number or beginning, and a length with its unit', () => {
    const engine = QUESTIONS.find(({ key }) => key === 'engine')!;
    const rails = QUESTIONS.find(({ key }) => key === 'rails front')!;
    expect(readReply(engine, 'PUSHROD v8', NONE)).toEqual({ text: 'pushrod V8' });
    expect(readReply(engine, '2', NONE)).toEqual({ text: 'inline six' });
    expect(readReply(engine, 'over', NONE)).toEqual({ text: 'overhead-cam V8' });
    expect(readReply(engine, 'inline', NONE)).toHaveProperty('problem');
    expect(readReply(engine, '9', NONE)).toHaveProperty('problem');
    expect(readReply(rails, '29-1/2', NONE)).toEqual({ text: '29-1/2' });
    expect(readReply(rails, '740 mm', NONE)).toEqual({ text: '740 mm' });
    expect(readReply(rails, '740', NONE)).toMatchObject({ problem: /more than this template/ });
    expect(readReply(rails, '740', new Map([['units', 'mm']]))).toEqual({ text: '740' });
  });

  it('asks again for what another answer has made impossible', () => {
    const before: Answers = new Map<QuestionKey, string>([
      ['units', 'in'],
      ['engine length', '37'],
    ]);
    const turn = take(before, 'V6');
    expect(turn).toMatchObject({ turn: 'on', said: ['engine length is asked again'] });
  });
});

describe('answers as text', () => {
  it('come back as they were', () => {
    fc.assert(
      fc.property(fc.array(word, { maxLength: 40 }), (lines) => {
        const answers = type(lines);
        expect(readAnswers(answersText(answers, 'a test'))).toEqual({ answers, problems: [] });
      }),
    );
  });

  it('are read with comments, other line ends and any order', () => {
    const { answers, problems } = readAnswers(
      '\ufeff# mine\r\ncore: 250 # of the new one\r\n\r\nunits: mm\r\nhood:\r\n',
    );
    expect(problems).toEqual([]);
    expect([...answers]).toEqual([
      ['units', 'mm'],
      ['core', '250'],
      ['hood', ''],
    ]);
  });

  it('give every problem with its line', () => {
    const { problems } = readAnswers(
      'enigne: V6\nhood\ncore: long\nhood: 26\nhood: 27\nbay: bus\n',
    );
    expect(problems.map(({ line, code, nearest }) => [line, code, nearest])).toEqual([
      [1, 'unknown key', 'engine'],
      [2, 'syntax', undefined],
      [3, 'bad length', undefined],
      [5, 'duplicate', undefined],
      [6, 'bad length', undefined],
    ]);
  });

  it('never throw, whatever they hold', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(Array.isArray(readAnswers(text).problems)).toBe(true);
      }),
    );
  });
});

describe('the scenario they make', () => {
  const answers = readAnswers('rails front: 29 1/2\nrails rear: 30 7/8\ncore: 9 1/2\n').answers;
  const text = scenarioText(answers);
  const partText = (name: string) => text.split(`\n  ${name}:`)[1]!.split(/\n {2}\S/)[0]!;

  it('marks what no answer gives, and only that', () => {
    expect(partText('right rail')).not.toContain('guess');
    expect(partText('right rail')).toContain('rails front 29 1/2');
    expect(partText('right rail')).toContain('inside: 14 3/4');
    expect(partText('right rail')).toContain('inside: 15 7/16');
    expect(partText('radiator')).not.toContain('guess');
    expect(partText('radiator')).toContain('9 1/2 ahead of front axle');
    for (const name of ['hood', 'fan', 'block', 'firewall']) {
      expect(partText(name)).toContain('guess: true');
    }
  });

  it('says what to measure next, from where to where', () => {
    const head = text.split('berth: 1')[0]!;
    expect(head).toMatch(/hood: from the top of the frame rails to the underside/);
    expect(head).not.toContain('core: from');
    expect(head.split('\n').every((line) => line.length <= 96)).toBe(true);
  });
});

describe('the measuring guide', () => {
  it('has every question with its ends and a blank, and one caution', () => {
    const text = formText();
    const words = (lines: string) => lines.replace(/\s+/g, ' ');
    for (const question of QUESTIONS) {
      expect(text).toContain(question.title);
      if (isChoice(question)) continue;
      expect(words(text)).toContain(words(`from ${question.from} to ${question.to}`));
    }
    const blanks = text.split('\n').filter((line) => /\. _{20}$/.test(line));
    expect(blanks.length).toBe(QUESTIONS.filter((question) => !isChoice(question)).length);
    expect(words(text).split(CAUTION).length).toBe(2);
    expect(text.split('\n').every((line) => line.length <= 80)).toBe(true);
  });

  it('is one page that loads nothing, for paper of either size', () => {
    const page = formPage(printedPolicy);
    for (const { title } of QUESTIONS) expect(page).toContain(title.replace(/&/g, '&amp;'));
    expect(page.split(CAUTION).length).toBe(2);
    expect(page).not.toMatch(/https?:|src=|href=|@import|url\(|<script/);
    expect(page).toContain('@page');
    // 216 - 2 * 13 mm on Letter, 210 - 2 * 13 mm on A4: no wider than the narrower.
    const [, widest] = /max-width: (\d+)mm/.exec(page)!;
    expect(Number(widest)).toBeLessThanOrEqual(184);
    const opened = page.match(/<(td|tr|table|b|span|p|div)\b/g)!.length;
    expect(page.match(/<\/(td|tr|table|b|span|p|div)>/g)!.length).toBe(opened);
  });
});
