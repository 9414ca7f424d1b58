/** The page's entry: reads what it was started with, shows it, and follows the file where there is one. */

import { withCase } from '../model/text/with-case.js';
import { App } from './app.js';
import { Bench } from './bench.js';
import { download, saveThere } from './saving.js';
import type { Saved } from './saving.js';

/** What the page is started with, in the element `berth-start`. */
interface Start {
  /** Of the file. */
  readonly name: string;
  readonly text: string;
  /** Whether a server follows the file, and writes it. */
  readonly live: boolean;
}

const start = JSON.parse(document.getElementById('berth-start')!.textContent) as Start;
const bench = new Bench(document.getElementById('berth-worker')!.textContent);
let text = start.text;

const app = new App({
  name: start.name,
  bench,
  keeping: {
    isLive: start.live,
    save: (name, wants) =>
      start.live ? saveThere(name, wants) : Promise.resolve(saveCopy(name, wants)),
  },
});
document.getElementById('page')!.append(app.element);
app.read(text);

if (start.live) {
  const changes = new EventSource('changes');
  changes.addEventListener('message', ({ data }: MessageEvent<string>) => {
    text = (JSON.parse(data) as { text: string }).text;
    app.read(text);
  });
  changes.addEventListener('lost', ({ data }: MessageEvent<string>) => {
    app.lost((JSON.parse(data) as { lost: string }).lost);
  });
}

/** Without a server the changed text is offered as a file, and the page goes on with it. */
function saveCopy(name: string, wants: string): Saved {
  const result = withCase(text, name, wants);
  if ('problems' in result) return { message: result.problems[0]!.message };
  text = result.text;
  download(start.name, text);
  return { text };
}
