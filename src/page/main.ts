/** The page's entry. */

import { REVISION } from 'three';
import { readScenario } from '../model/read.js';

interface Start {
  readonly name: string;
  readonly text: string;
  readonly live: boolean;
}

const { text, name } = JSON.parse(document.getElementById('berth-start')!.textContent) as Start;
const { scenario, problems } = readScenario(text, 'auto');
document.getElementById('page')!.textContent =
  `${name}: ${scenario?.title ?? problems[0]!.message}`;
document.documentElement.dataset['drawnBy'] = REVISION;
