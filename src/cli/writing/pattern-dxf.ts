/** A flat pattern as DXF, for a cutter's table: in the units of the file, one to one, layers by what is done. */

import { DxfWriter, LWPolylineFlags, point2d, point3d, Units as DxfUnits } from '@tarikjabiri/dxf';
import { CHECK_LINE } from '../../drawings/pattern.js';
import { boundsOf } from '../../geometry/mounts/patterns.js';
import type { Pattern, Run } from '../../geometry/mounts/patterns.js';
import { inUnits } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import { detailWords, materialWords, patternWords } from '../../words/mounts.js';
import { clean } from '../../words/text.js';

/** Its first comment, which tells a file of ours from any other. */
export const DXF_MARK = 'Berth flat pattern';

/** Colours by number, as every reader of DXF has them: white, cyan, red, green. */
const LAYERS = { CUT: 7, SCRIBE: 4, HOLES: 1, TEXT: 3 } as const;
type Layer = keyof typeof LAYERS;

/** Millimetres of the letters. */
const LETTERS = 3.5;

export function patternDxf(pattern: Pattern, mount: string, units: Units): string {
  const dxf = new DxfWriter();
  dxf.setUnits(units === 'in' ? DxfUnits.Inches : DxfUnits.Millimeters);
  for (const [name, colour] of Object.entries(LAYERS)) dxf.addLayer(name, colour, 'CONTINUOUS');
  const size = (mm: number): number => inUnits(mm, units);
  const on = (layerName: Layer) => ({ layerName });
  const draw = ({ points, closed }: Run, layer: Layer): void => {
    const corners = points.map(([x, y]) => ({ point: point2d(size(x), size(y)) }));
    const flags = closed ? LWPolylineFlags.Closed : LWPolylineFlags.None;
    dxf.addLWPolyline(corners, { flags, ...on(layer) });
  };
  const write = (x: number, y: number, words: string): void => {
    // What a reader of another code page would spoil is left out.
    const said = uncoded(clean(words, { plain: true }));
    dxf.addText(point3d(size(x), size(y)), size(LETTERS), said, on('TEXT'));
  };
  for (const run of pattern.cut) draw(run, 'CUT');
  for (const run of pattern.scribe) draw(run, 'SCRIBE');
  for (const { at, diameter } of pattern.holes) {
    dxf.addCircle(point3d(size(at[0]), size(at[1])), size(diameter / 2), on('HOLES'));
  }
  for (const { at, text } of pattern.notes) write(at[0] + 1, at[1], text);
  const [[left], [low]] = boundsOf(pattern);
  const { mm, words } = CHECK_LINE[units];
  const lines = [
    `${words} check line. Up on the page: ${pattern.up}`,
    ...detailWords(pattern, units),
    materialWords(pattern, units),
    patternWords(pattern, mount),
  ];
  const below = low - 8;
  draw(
    {
      points: [
        [left, below],
        [left + mm, below],
      ],
      closed: false,
    },
    'TEXT',
  );
  lines.reverse().forEach((line, i) => write(left, below - 6 - i * 2 * LETTERS, line));
  return `999\n${DXF_MARK}\n${dxf.stringify()}`;
}

/**
 * Text in which a reader of DXF finds no code of its own: `%%c` is a diameter sign to it, `^J` a line's end,
 * `\U+00B0` a letter by number.
 */
function uncoded(text: string): string {
  return text
    .replace(/%(?=%)/g, '% ')
    .replace(/\\/g, '/')
    .replace(/\^/g, "'");
}
