/** A command with what several of them take, said once: the file, a place, a search, how the answer is told. */

import { Command } from 'commander';
import { USUAL_MEMORY } from '../running/interrupt.js';

export class Offer extends Command {
  override createCommand(name?: string): Offer {
    return new Offer(name);
  }

  /** A scenario, from a file or piped in. */
  reading(): this {
    return this.argument('<file>', "scenario, YAML or JSON; '-' reads standard input");
  }

  /** A place that may be typed, and the options that go with it. */
  somewhere(at: string): this {
    return this.option('--at <position>', `${at} (the best place)`).option(
      '--option <choice=option>',
      "hold a choice (the best answer's options)",
      collect,
    );
  }

  /** What a search for the best place is held to. */
  searching(): this {
    return this.option('--tolerance <length>', 'how close a proof must come (1/64 in)')
      .within('stop then, with the best so far')
      .option('--pin <coordinate=length>', 'hold setback, offset, height or pitch', collect)
      .option('--option <choice=option>', 'hold a choice', collect)
      .option('--aim <what>', 'margin, centre, low or back', 'margin')
      .option('--keep <length>', 'margin that centre, low or back must leave (0)');
  }

  /** How the answer is told; `stop` says what a time limit leaves. */
  telling(stop?: string): this {
    this.option('--json', 'print the answer for programs').inUnits();
    if (stop !== undefined) this.within(stop);
    return this.plainly();
  }

  /** What ends a search early; `stop` says what that leaves. */
  within(stop: string): this {
    return this.option('--time-limit <seconds>', stop).option(
      '--memory-limit <MiB>',
      `the same when its data take so much (${USUAL_MEMORY})`,
    );
  }

  inUnits(): this {
    return this.option(
      '--units <in|mm>',
      "print in, and read lengths without a unit in, these (the file's)",
    );
  }

  plainly(): this {
    return this.option('--plain', 'ASCII only, no colour');
  }
}

/** An option that may be typed several times. */
export function collect(text: string, before: readonly string[] = []): string[] {
  return [...before, text];
}
