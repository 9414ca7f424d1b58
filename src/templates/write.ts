/** A scenario as commented YAML that a person then edits: what was taped, what is a guess. */

import type { Side } from '../model/scenario.js';
import type { Units } from '../model/text/tape.js';
import type { DrawnPart } from './drawing.js';
import { planOf } from './plan.js';
import type { Plan, PlannedChoice, PlannedOption } from './plan.js';
import { QUESTIONS } from './questions.js';
import type { SizeQuestion } from './questions.js';
import { inchesText, isChoice, jobOf, sizesOf, unitsOf, usualText } from './reply.js';
import type { Answers } from './reply.js';
import { lengthText, pairText, partLines } from './text.js';
import { wrapped } from './wrap.js';

/** Guesses that most often decide where an engine goes, the first to be measured first. */
const BITES_FIRST = [
  'fan',
  'oil filter',
  'alternator',
  'steering pump',
  'starter',
  'distributor',
  'left mount',
  'bell housing',
  'shifter',
  'air cleaner',
  'brake booster',
  'heater',
  'tie rod',
];

const HOW_TO_READ =
  'Written by berth init, for you to edit. X runs to the rear, Y to the right of a person seated ' +
  'facing forward, Z up. What no answer gives is a guess: as large as such a part often is. ' +
  'Tape it, put its true size in, and go on. A part nobody drew is the one that hits: add it.';

/** Columns of a comment line. */
const PAGE = 96;

/** The text of a scenario for these answers; what is not among them was skipped. */
export function scenarioText(answers: Answers): string {
  const units = unitsOf(answers);
  const plan = planOf(jobOf(answers), sizesOf(answers));
  const parts = (list: readonly DrawnPart[], side: Side) =>
    list.flatMap((one) => partText(one, answers, { units, side }));
  return `${[
    ...head(answers, plan),
    'berth: 1',
    `title: ${titleOf(answers)}`,
    `units: ${units}`,
    `driver: ${jobOf(answers).driver}`,
    'origin: front axle centreline, frame centre, rail top',
    '',
    ...datums(plan, answers, units),
    ...position(plan, units),
    "engine: # from the crankshaft's centre at the rear face of the block, crankshaft level",
    ...parts(plan.engine, 'engine'),
    '',
    'chassis: # from the front axle centreline, the middle of the frame and the top of the rails',
    ...parts(plan.chassis, 'chassis'),
    '',
    'rulebook: common practice # clearances by kind; your own go under rules:',
    ...rules(plan),
    '',
    ...choices(plan.choices, answers, units),
    `not fitted: [${plan.notFitted.join(', ')}] # nothing of these kinds is in the way`,
  ].join('\n')}\n`;
}

/** How many parts the file has, mirror images and options included, and how many of them are guesses. */
export function guessCount(answers: Answers): { readonly parts: number; readonly guesses: number } {
  const plan = planOf(jobOf(answers), sizesOf(answers));
  const count = (list: readonly DrawnPart[]) =>
    list.reduce((sum, { mirror }) => sum + (mirror === undefined ? 1 : 2), 0);
  const added = plan.choices.flatMap(({ options }) => options.flatMap(({ add }) => add));
  const all = plan.engine.concat(plan.chassis, added);
  return { parts: count(all), guesses: count(all.filter((one) => isGuess(one, answers))) };
}

/** What the job is, in a few words. */
export function titleOf(answers: Answers): string {
  const { bay, engine, transmission } = jobOf(answers);
  const behind = transmission === 'with transfer case' ? transmission : `and ${transmission}`;
  return `${engine} ${behind} into a ${bay}`;
}

function head(answers: Answers, plan: Plan): string[] {
  const skipped = QUESTIONS.filter((question): question is SizeQuestion => {
    return !isChoice(question) && !answers.get(question.key);
  });
  const guesses = plan.engine.concat(plan.chassis).filter((one) => isGuess(one, answers));
  const first = BITES_FIRST.filter((name) => guesses.some((guess) => guess.name === name));
  return [
    ...comment(HOW_TO_READ, '# '),
    '#',
    '# Measure next:',
    ...skipped.flatMap(({ key, from, to }) => comment(`${key}: from ${from} to ${to}`, '#   ')),
    ...(first.length === 0
      ? []
      : comment(`the parts that bite first: ${first.join(', ')}`, '#   ')),
    '',
  ];
}

/** Words on comment lines, none longer than a page is wide. */
function comment(words: string, mark: string): string[] {
  return wrapped(words, mark, PAGE);
}

/** Pairs that meet on purpose and of which the rule book cannot know. */
function rules({ engine }: Plan): string[] {
  // A lever on the side of its case works a cable and needs no hole.
  const upright = engine.some(({ kind, solids: [first] }) => {
    return kind === 'shifter' && first !== undefined && 'cylinder' in first;
  });
  const why = 'it comes up through a hole of its own';
  return upright ? ['rules:', `  - { between: [shifter, tunnel], gap: ignore, why: ${why} }`] : [];
}

function datums({ datums }: Plan, answers: Answers, units: Units): string[] {
  const side = (name: 'chassis' | 'engine') => [
    `  ${name}:`,
    ...Object.entries(datums[name]).map(([datum, at]) => {
      const axes = Object.entries(at).map(
        ([axis, value]) => `${axis}: ${lengthText(value, units)}`,
      );
      return `    ${datum}: { ${axes.join(', ')} }${datumNote(datum, answers)}`;
    }),
  ];
  return ['datums: # what a tape can touch', ...side('chassis'), ...side('engine'), ''];
}

/** A datum that an answer fixes says so; without the answer it is as much a guess as a part is. */
function datumNote(datum: string, answers: Answers): string {
  const fixed: Record<string, SizeQuestion['key']> = {
    'core face': 'core',
    'firewall face': 'firewall',
    'pulley face': 'engine length',
    'carb pad': 'engine height',
    'intake top': 'engine height',
    'valve cover top': 'engine height',
  };
  const key = fixed[datum];
  if (key === undefined) return '';
  return answers.get(key) ? ` # answer: ${key}` : ' # a guess';
}

function position({ position: p }: Plan, units: Units): string[] {
  return [
    'position: # how far the search may go; one number pins it',
    `  setback: ${pairText(p.setback, units)} # rear face of the block, behind the front axle`,
    `  offset: ${pairText(p.offset, units)}`,
    `  height: ${pairText(p.height, units)} # crankshaft's centre above the rail top`,
    `  pitch: [${p.pitch.join(', ')}] # degrees, tail down`,
    '',
  ];
}

/** A part as it stands in the file; on the chassis, what was taped is told as the tape found it. */
function partText(one: DrawnPart, answers: Answers, { units, side }: Where): string[] {
  const inTapeWords = side === 'chassis' && one.measuredBy.length > 0;
  const lines = partLines(one, isGuess(one, answers), { units, inTapeWords });
  return [`  ${one.name}:${partNote(one, answers, units)}`, ...lines.map((line) => `    ${line}`)];
}

interface Where {
  readonly units: Units;
  readonly side: Side;
}

function isGuess({ measuredBy }: DrawnPart, answers: Answers): boolean {
  return measuredBy.length === 0 || measuredBy.some((key) => !answers.get(key));
}

/** Which answers the part comes from, then what there is to know about it. */
function partNote({ measuredBy, note }: DrawnPart, answers: Answers, units: Units): string {
  const from = measuredBy.map((key) => {
    const given = answers.get(key);
    if (given) return `${key} ${given}`;
    const question = QUESTIONS.find((one) => one.key === key)!;
    return `${key} skipped, ${usualText(question, answers)} ${units} stands in`;
  });
  const said = [
    ...(from.length === 0 ? [] : [from.join(', ')]),
    ...(note === undefined ? [] : [note]),
  ];
  return said.length === 0 ? '' : ` # ${said.join('; ')}`;
}

function choices(list: readonly PlannedChoice[], answers: Answers, units: Units): string[] {
  const option = (one: PlannedOption) => [
    ...(one.remove.length + one.add.length === 0
      ? [`    ${one.name}: {}`]
      : [
          `    ${one.name}:`,
          `      remove: [${one.remove.join(', ')}]`,
          ...added(one.add, answers, units),
          `      hours: ${one.hours}`,
          `      cost: ${one.cost}`,
        ]),
  ];
  return [
    'choices: # the first option of each is the bay as it stands; put your own hours and money in',
    ...list.flatMap(({ name, options }) => [`  ${name}:`, ...options.flatMap(option)]),
    '',
  ];
}

function added(parts: readonly DrawnPart[], answers: Answers, units: Units): string[] {
  if (parts.length === 0) return [];
  const lines = parts.flatMap((one) => partText(one, answers, { units, side: 'chassis' }));
  return ['      add:', '        chassis:', ...lines.map((line) => `        ${line}`)];
}

/** A size and its unit as a form or a prompt says it. */
export function rangeText(least: number, most: number, units: Units): string {
  return `${inchesText(least, units)} to ${inchesText(most, units)} ${units}`;
}
