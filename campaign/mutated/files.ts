/** The files that are spoilt: those that ship, first drafts, those of the tests, and one with every key. */

import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { readScenario } from '../../src/model/read.js';
import { BAYS, ENGINES, TRANSMISSIONS } from '../../src/templates/catalogue.js';
import type { QuestionKey } from '../../src/templates/questions.js';
import { scenarioText } from '../../src/templates/write.js';
import { ORCHARD } from '../../tests/model/orchard.js';
import { dumpOf } from './dump.js';

export interface SeedFile {
  readonly name: string;
  readonly text: string;
  /** What it says. */
  readonly tree: unknown;
  /** What was read of it, letter for letter. */
  readonly dump: string;
  /** How often it is taken: the small ones, which are soon read, more often. */
  readonly weight: number;
  readonly units: 'in' | 'mm';
}

const SMALL = 4500;

export function seedFiles(): SeedFile[] {
  const shipped = ['scenarios', 'tests/bays'].flatMap((folder) =>
    readdirSync(folder)
      .filter((file) => /\.(yaml|json)$/.test(file))
      .map((file) => [file, readFileSync(`${folder}/${file}`, 'utf8')] as const),
  );
  const every = readFileSync('campaign/files/every-key.yaml', 'utf8');
  const all = [
    ...shipped,
    ...drafts(),
    ['the example', ORCHARD] as const,
    ['every key', every] as const,
  ];
  return all.map(([name, text]) => {
    const read = readScenario(text, 'auto');
    if (!read.scenario) throw new Error(`${name} does not read: ${read.problems[0]!.message}`);
    const heavy =
      name === 'every key' ? 5 : text.length < SMALL ? 5 : text.length < 10_000 ? 0.3 : 0.02;
    return {
      name,
      text,
      tree: parse(text) as unknown,
      dump: dumpOf(read),
      weight: heavy,
      units: read.scenario.units,
    };
  });
}

/** A first draft of every engine in every bay, with transmissions and units in turn. */
function drafts(): (readonly [string, string])[] {
  const transmissions = Object.keys(TRANSMISSIONS);
  return Object.keys(ENGINES).flatMap((engine, e) =>
    Object.keys(BAYS).map((bay, b) => {
      const answers = new Map<QuestionKey, string>([
        ['engine', engine],
        ['bay', bay],
        ['transmission', transmissions[(e + b) % transmissions.length]!],
        ['units', (e + b) % 2 === 0 ? 'in' : 'mm'],
      ]);
      return [`draft: ${engine}, ${bay}`, scenarioText(answers)] as const;
    }),
  );
}
