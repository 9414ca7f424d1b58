/** The worker's entry. */

import { readScenario } from '../model/read.js';

self.onmessage = ({ data }: MessageEvent<{ text: string }>) => {
  self.postMessage(readScenario(data.text, 'auto').problems.length);
};
