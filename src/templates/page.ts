/** The measuring guide as one page for a browser to print: nothing is loaded from elsewhere. */

import { AFTER, BEFORE, CAUTION, FORM_TITLE } from './form.js';
import { QUESTIONS } from './questions.js';
import type { Question } from './questions.js';
import { isChoice } from './reply.js';

/** Black on white, no smaller than a person reads under a vehicle; fits Letter and A4 alike. */
const STYLE = `
  @page { margin: 13mm }
  body { font: 10.5pt/1.3 sans-serif; color: #000; background: #fff; max-width: 184mm; margin: 0 auto }
  h1 { font-size: 16pt; margin: 0 0 2mm }
  p { margin: 0 0 3mm }
  .head { display: flex; gap: 6mm; margin: 4mm 0 }
  .head span { flex: 1; border-bottom: 0.3mm solid #000 }
  table { border-collapse: collapse; width: 100% }
  td { border-top: 0.2mm solid #888; padding: 1.4mm 1mm; vertical-align: top }
  tr { break-inside: avoid }
  .number { width: 8mm; text-align: right; font-weight: bold }
  .blank { width: 42mm; vertical-align: bottom }
  .blank div { border-bottom: 0.3mm solid #000; height: 7mm }
  .how { color: #333; font-size: 9pt }
  .box { display: inline-block; width: 3.2mm; height: 3.2mm; border: 0.3mm solid #000; margin: 0 1mm 0 0 }
  .option { white-space: nowrap; margin-right: 5mm }
  .caution { border: 0.4mm solid #000; padding: 2mm; margin-top: 4mm; font-weight: bold }
`;

/**
 * The whole page as HTML text.
 * @param policyOf the content security policy of a page with that style and nothing that runs.
 */
export function formPage(policyOf: (style: string) => string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policyOf(STYLE)}">
<meta name="viewport" content="width=device-width">
<title>${FORM_TITLE}</title>
<style>${STYLE}</style>
</head>
<body>
<h1>${FORM_TITLE}</h1>
<p>${safe(BEFORE)}</p>
<div class="head">Vehicle<span></span>Engine<span></span>Date<span></span></div>
<table>
${QUESTIONS.map(row).join('\n')}
</table>
<p>${safe(AFTER)}</p>
<p class="caution">${safe(CAUTION)}</p>
</body>
</html>
`;
}

function row(question: Question, index: number): string {
  const number = `<td class="number">${index + 1}</td>`;
  const title = `<b>${safe(question.title)}</b>`;
  const how = `<span class="how">${safe(question.how)}</span>`;
  if (isChoice(question)) {
    const options = question.options.map(
      (option) => `<span class="option"><span class="box"></span>${safe(option)}</span>`,
    );
    return `<tr>${number}<td colspan="2">${title}<br>${options.join(' ')}<br>${how}</td></tr>`;
  }
  const minus = question.minus === undefined ? '' : `<br>minus: ${safe(question.minus)}`;
  const where = `from ${safe(question.from)}<br>to ${safe(question.to)}${minus}`;
  const blank = '<td class="blank"><div></div></td>';
  return `<tr>${number}<td>${title}<br>${where}<br>${how}</td>${blank}</tr>`;
}

function safe(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}
