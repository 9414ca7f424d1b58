/** The tabs of the page: what every file has, and what only some have a section for. */

import type { Page, Panel } from './page.js';
import { asBuiltPanel } from './panels/as-built.js';
import { bestPanel } from './panels/best.js';
import { comparePanel } from './panels/compare.js';
import { coordinatesPanel } from './panels/coordinates.js';
import { drivelinePanel } from './panels/driveline.js';
import { mockupPanel } from './panels/mockup.js';
import { mountsPanel } from './panels/mounts.js';
import { optionsPanel } from './panels/options.js';
import { savePanel } from './panels/save.js';
import type { Keeping } from './panels/save.js';
import { slidePanel } from './panels/slide.js';
import { trimsPanel } from './panels/trims.js';
import { whyPanel } from './panels/why.js';
import type { Tab } from './tabs.js';

export function panelTabs(page: Page, keeping: Keeping): readonly Tab[] {
  const { driveline, mockup, mounts } = page.scenario;
  return [
    one('Move', () => coordinatesPanel(page)),
    {
      name: 'Change',
      panels: () => [
        ['Options', optionsPanel(page)],
        ['Cuts', trimsPanel(page)],
      ],
    },
    one('Best', () => bestPanel(page)),
    one('Why not', () => whyPanel(page)),
    one('Compare', () => comparePanel(page)),
    one('Slide', () => slidePanel(page)),
    ...(driveline ? [one('Driveline', () => drivelinePanel(page, driveline))] : []),
    ...(mockup ? [one('Mock-up', () => mockupPanel(page, mockup))] : []),
    ...(mounts ? [one('Mounts', () => mountsPanel(page, mounts))] : []),
    one('As built', () => asBuiltPanel(page)),
    one('Save', () => savePanel(page, keeping)),
  ];
}

function one(name: string, panel: () => Panel): Tab {
  return { name, panels: () => [['', panel()]] };
}
