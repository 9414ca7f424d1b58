/** The tabs of the page: what every file has, and what only some have a section for. */

import type { Page } from './page.js';
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
    { name: 'Move', panels: [['', coordinatesPanel(page)]] },
    {
      name: 'Change',
      panels: [
        ['Options', optionsPanel(page)],
        ['Cuts', trimsPanel(page)],
      ],
    },
    { name: 'Best', panels: [['', bestPanel(page)]] },
    { name: 'Why not', panels: [['', whyPanel(page)]] },
    { name: 'Compare', panels: [['', comparePanel(page)]] },
    { name: 'Slide', panels: [['', slidePanel(page)]] },
    ...(driveline
      ? [{ name: 'Driveline', panels: [['', drivelinePanel(page, driveline)] as const] }]
      : []),
    ...(mockup ? [{ name: 'Mock-up', panels: [['', mockupPanel(page, mockup)] as const] }] : []),
    ...(mounts ? [{ name: 'Mounts', panels: [['', mountsPanel(page, mounts)] as const] }] : []),
    { name: 'As built', panels: [['', asBuiltPanel(page)]] },
    { name: 'Save', panels: [['', savePanel(page, keeping)]] },
  ];
}
