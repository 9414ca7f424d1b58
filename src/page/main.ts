/** The page's entry: reads what it was started with, shows it, and follows the file where there is one. */

import { App } from './app.js';
import { Bench } from './bench.js';
import { download, saveThere } from './saving.js';

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
    save: async (name, wants) => {
      if (start.live) return saveThere(name, wants);
      return { message: 'this page cannot write a file' };
    },
  },
});
document.getElementById('page')!.append(app.element);
app.read(text);

if (start.live) {
  new EventSource('changes').addEventListener('message', ({ data }: MessageEvent<string>) => {
    text = (JSON.parse(data) as { text: string }).text;
    app.read(text);
  });
}
void download;
