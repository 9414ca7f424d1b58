/** The head of a drawing: what it shows, of which bay, with which options, to what scale, and when. */

import { BOLD } from './paper.js';
import type { Paper } from './paper.js';
import type { Subject } from './subject.js';
import { fitted, TEXT_SIZE, textWidth, wrapped } from './text.js';
import type { ViewName } from './view.js';

const LINE = 4.8;
const TITLE_SIZE = 5;

/** What is seen from where: the driver's side depends on where the wheel is. */
function titleOf(view: ViewName, { scenario }: Subject): string {
  const left = scenario.driver === 'left' ? "driver's" : "passenger's";
  const right = scenario.driver === 'left' ? "passenger's" : "driver's";
  return {
    side: `SIDE, seen from the left (${left} side); front to the left`,
    top: `TOP, seen from above; front to the left, ${right} side up`,
    front: `FRONT, seen from ahead; ${right} side to the left`,
  }[view];
}

/** Millimetres that the head takes. */
export function headHeight(subject: Subject): number {
  return 8 + LINE * (1 + optionLines(subject).length) + 1;
}

function optionLines({ options }: Subject): string[] {
  return wrapped(`Options: ${options}`, 250, 2);
}

export function writeHead(paper: Paper, subject: Subject, view: ViewName, scale: string): void {
  const { scenario, units, date } = subject;
  const right = (text: string, y: number, size: number, bold: boolean): number => {
    const w = textWidth(text, size) * (bold ? BOLD : 1);
    paper.text(paper.width - w - 0.5, y, text, { size, bold });
    return paper.width - w - 4;
  };
  const named = units === 'in' ? 'inches' : 'millimetres';
  const room = right(`Scale ${scale}, ${named}`, 4, TEXT_SIZE, true);
  const title = fitted(titleOf(view, subject), room / BOLD, TITLE_SIZE);
  paper.text(0.5, 4, title, { size: TITLE_SIZE, bold: true });
  const left = right(date, 8 + LINE / 2, TEXT_SIZE, false);
  paper.text(0.5, 8 + LINE / 2, fitted(scenario.title, left));
  optionLines(subject).forEach((line, i) => paper.text(0.5, 8 + LINE * (i + 1.5), line));
}
