import { describe, expect, it } from 'vitest';
import { Interrupt } from '../../src/cli/running/interrupt.js';
import { drive } from '../../src/cli/running/progress.js';
import type { Search } from '../../src/cli/running/progress.js';
import { PLAIN_LOOK } from '../../src/words/text.js';
import type { PlaceAnswer, Progress } from '../../src/solver/answer.js';
import { fitting, INCH, open } from './sample.js';
import { world } from './world.js';

const SHOWING = { units: 'in', look: { ...PLAIN_LOOK, plain: false } } as const;

const STEP: Progress = {
  doing: 'all options',
  best: 0.2 * INCH,
  bound: 0.9 * INCH,
  effort: { boxes: 1204, gaps: 1, lps: 1 },
};

/** A search of so many steps, which keeps what it was told. */
function* search(steps: number, heard: string[]): Search<PlaceAnswer> {
  for (let i = 0; i < steps; i++) {
    const word = yield STEP;
    heard.push(word);
    if (word !== 'go') return open({ stopped: word });
  }
  return fitting();
}

describe('driving a search', () => {
  it('goes on to the answer', async () => {
    const heard: string[] = [];
    const io = world({ tick: 1 });
    const answer = await drive(search(10, heard), io, new Interrupt(io), SHOWING);
    expect(answer.stopped).toBeUndefined();
    expect(heard).toEqual(Array(10).fill('go'));
    expect(io.said.err).toBe('');
    // The answer is not out yet: who asks to stop now must not lose it.
    expect(io.listeners).toBe(1);
  });

  it('stops at the time limit, not before', async () => {
    const heard: string[] = [];
    const io = world({ tick: 10 });
    const answer = await drive(search(1e6, heard), io, new Interrupt(io, { seconds: 2 }), SHOWING);
    expect(answer.stopped).toBe('time');
    expect(heard.at(-1)).toBe('time');
    expect(heard.length).toBeGreaterThan(20);
    expect(heard.length).toBeLessThan(200);
  });

  it('keeps more of a limit for what comes after, the longer it took to get ready', async () => {
    const heard: string[] = [];
    const io = world({ tick: 10 });
    const interrupt = new Interrupt(io, { seconds: 2 });
    for (let n = 0; n < 100; n++) io.now();
    await drive(search(1e6, heard), io, interrupt, SHOWING);
    const used = io.now();
    expect(used).toBeGreaterThan(1000);
    expect(used).toBeLessThan(2000 - 0.5 * 1000);
    // Once the search is over, the rest may use what was kept, but for printing.
    expect(interrupt.word()).toBe('time');
    interrupt.release();
    expect(interrupt.word()).toBe('go');
    while (io.now() < 1910);
    expect(interrupt.word()).toBe('time');
  });

  it('stops when memory is full, at one of the looks that it takes now and then', async () => {
    const heard: string[] = [];
    const io = world({ tick: 10, full: (look) => look === 3 });
    const answer = await drive(search(1e6, heard), io, new Interrupt(io), SHOWING);
    expect(answer.stopped).toBe('memory');
    expect(heard.length).toBeGreaterThan(10);
    expect(heard.length).toBeLessThan(60);
  });

  it('stops when asked, at the next breath', async () => {
    const heard: string[] = [];
    const io = world({ tick: 10, onBreath: (at, count) => count === 3 && at.interrupt() });
    const answer = await drive(search(1e6, heard), io, new Interrupt(io), SHOWING);
    expect(answer.stopped).toBe('asked');
    expect(heard.length).toBeLessThan(50);
  });

  it('shows one line on a terminal after half a second, and clears it', async () => {
    const io = world({ tick: 20, terminal: true });
    await drive(search(200, []), io, new Interrupt(io), SHOWING);
    expect(io.said.err).toContain('all options: best 3/16 to spare, at most 15/16 to spare');
    expect(io.said.err.endsWith('\r\u001b[2K')).toBe(true);
    expect(io.said.err).not.toContain('\n');
    const lines = io.said.err.split('\r\u001b[2K');
    for (const line of lines) expect(line.length).toBeLessThan(80);
    expect(lines.length).toBeGreaterThan(5);
  });

  const drawn = async (width: number | undefined, step: Progress, plain = false) => {
    const io = world({ tick: 20, terminal: true, ...(width === undefined ? {} : { width }) });
    const look = { ...PLAIN_LOOK, plain };
    const steps = (function* (): Search<PlaceAnswer> {
      for (let i = 0; i < 200; i++) yield step;
      return fitting();
    })();
    await drive(steps, io, new Interrupt(io), { units: 'in', look });
    return io.said.err;
  };

  it('keeps to the width of the terminal, and says how to stop on the narrowest', async () => {
    for (const width of [20, 40, 60, 80, 200]) {
      const err = await drawn(width, STEP);
      const lines = err.split('\r\u001b[2K').filter((line) => line !== '');
      expect(lines.length).toBeGreaterThan(5);
      for (const line of lines) expect(line.length).toBeLessThan(Math.min(80, width));
      expect(lines[0]).toContain('Ctrl-C');
    }
  });

  it('says that there is no bound and no place while there is none', async () => {
    const err = await drawn(undefined, { ...STEP, best: -Infinity, bound: Infinity });
    expect(err).toContain('all options: nothing found yet, no bound yet; 1204 boxes');
    expect(err).not.toContain('at most');
  });

  it('tells no margin where a search is for something else', async () => {
    const { doing, effort } = STEP;
    expect(await drawn(undefined, { doing, effort })).toContain('all options: 1204 boxes');
  });

  it('clears its line in plain text by writing over it', async () => {
    const err = await drawn(undefined, STEP, true);
    expect(err).not.toContain('\u001b');
    const [last, blank] = err.split('\r').slice(-3);
    expect(last).toContain('Ctrl-C');
    expect(blank).toBe(' '.repeat(last!.length));
    expect(err.endsWith('\r')).toBe(true);
  });

  it('shows nothing for a short search, nor off a terminal', async () => {
    const short = world({ tick: 1, terminal: true });
    await drive(search(50, []), short, new Interrupt(short), SHOWING);
    expect(short.said.err).toBe('');
    const piped = world({ tick: 20 });
    await drive(search(200, []), piped, new Interrupt(piped), SHOWING);
    expect(piped.said.err).toBe('');
  });

  it('clears its line when the search fails', async () => {
    const io = world({ tick: 20, terminal: true });
    const failing = (function* (): Search<PlaceAnswer> {
      for (let i = 0; i < 100; i++) yield STEP;
      throw new Error('broken');
    })();
    await expect(drive(failing, io, new Interrupt(io), SHOWING)).rejects.toThrow('broken');
    expect(io.said.err.endsWith('\r\u001b[2K')).toBe(true);
  });
});
