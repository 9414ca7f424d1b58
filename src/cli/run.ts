/** The command line: what can be typed, and what each way of ending says and returns. */

import { CommanderError } from 'commander';
import type { AsBuiltOptions } from './commands/asbuilt.js';
import type { BlockersOptions } from './commands/blockers.js';
import type { CompareOptions } from './commands/compare.js';
import type { ExploreOptions } from './commands/explore.js';
import type { GapsOptions } from './commands/gaps.js';
import type { DrivelineOptions } from './commands/driveline.js';
import type { InitOptions } from './commands/init.js';
import type { MountsOptions } from './commands/mounts.js';
import type { MockupOptions } from './commands/mockup.js';
import type { PlaceOptions } from './commands/place.js';
import type { SheetOptions } from './commands/sheet.js';
import type { VerifyOptions } from './commands/verify.js';
import type { TrimOptions } from './commands/trim.js';
import type { SlideOptions } from './commands/slide.js';
import { Interrupt } from './running/interrupt.js';
import type { Io } from './io.js';
import { collect, Offer } from './asking/offer.js';
import { problemCount, problemText, UserError } from './problems.js';
import { clean, fit } from '../words/text.js';
import type { Look } from '../words/text.js';
import { BAD_INPUT, FAULT } from './status.js';
import { VERSION } from './version.js';

const EXAMPLE = 'scenarios/orchard-hauler.yaml';

/** The longest message of a fault or of a mistyped command worth printing. */
const LONGEST_MESSAGE = 300;

/** What is said goes to a terminal of unknown fonts, and names in it come from anyone. */
const SAFE: Look = { width: 80, plain: false, colour: false };

/**
 * Runs one command and returns its exit status; nothing is thrown and the process is left alone.
 * @param argv what was typed after the program's name.
 */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  let status = 0;
  const program = commands(io, (ended) => {
    status = ended;
  });
  try {
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    return ended(error, io);
  }
}

/** A command's work, loaded only once it is asked for. */
type Load<Options> = () => Promise<
  (file: string, options: Options, io: Io, interrupt: Interrupt) => Promise<number>
>;

function commands(io: Io, end: (status: number) => void): Offer {
  const program = new Offer('berth');
  /** Work that Ctrl-C and limits end early. */
  const heard =
    <Options>(load: Load<Options>) =>
    (file: string, options: Options) =>
      interruptible(io, async (interrupt) => {
        const work = await load();
        end(await work(file, options, io, interrupt));
      });
  program
    .description(
      'Finds where an engine sits in a chassis that was never made for it, and proves it.',
    )
    .version(VERSION, '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand(false)
    .showSuggestionAfterError()
    .exitOverride()
    .configureOutput({
      writeOut: (text) => io.out(text),
      writeErr: (text) => io.err(text),
      getOutHelpWidth: () => 80,
      getErrHelpWidth: () => 80,
      outputError: (text, write) => write(`${mistyped(text)}\n`),
    })
    .addHelpText('after', example(`berth place ${EXAMPLE}`));

  program
    .command('init')
    .description('a first scenario from 25 answers or fewer, for you to edit')
    .argument('[file]', 'the scenario to write, YAML')
    .option('--answers <file>', "read the answers from a file, 'question: answer' a line")
    .option('--force', 'write over a file that is there')
    .option('--form', 'print the blank measuring guide instead')
    .option('--page <file>', 'with --form: write it as a page to print, HTML')
    .plainly()
    .addHelpText(
      'after',
      `\nEnter skips a question, back undoes, ? explains; stop keeps the answers\nin FILE.answers until you come back.` +
        `\nStatus: 0 written, 2 bad input, 3 stopped before the end.\n${example(
          'berth init bay.yaml',
        )}`,
    )
    .action(async (file: string | undefined, options: InitOptions) => {
      const { runInit } = await import('./commands/init.js');
      end(await runInit(file, options, io));
    });

  program
    .command('place')
    .description('where the engine goes, proved best for the parts and sizes in the file')
    .reading()
    .option('--json', 'print the answer for programs')
    .inUnits()
    .searching()
    .option('--guaranteed', 'maximise what is left when every measurement is off by its most')
    .option('--all', 'print every rule and its reason')
    .option('--certificate <file>', 'write the proof down, for berth verify, JSON')
    .option('--force', 'write over a file that is there')
    .plainly()
    .addHelpText(
      'after',
      `\nStatus: 0 fits, 1 proved not to fit, 2 bad input, 3 undecided.\n${example(
        `berth place ${EXAMPLE} --option "oil filter=remote"`,
      )}`,
    )
    .action(heard<PlaceOptions>(async () => (await import('./commands/place.js')).runPlace));

  program
    .command('verify')
    .description('whether a certificate proves what it claims, worked out again')
    .reading()
    .argument('<proof>', 'the certificate, as berth place --certificate wrote it')
    .option('--json', 'print the answer for programs')
    .inUnits()
    .within('stop then, with nothing said of it')
    .plainly()
    .addHelpText(
      'after',
      `\nStatus: 0 proved, 1 no proof, 2 bad input, 3 proved but changed since,\nor stopped.\n${example(
        `berth verify ${EXAMPLE} proof.json`,
      )}`,
    )
    .action((file: string, certificate: string, options: VerifyOptions) =>
      interruptible(io, async (interrupt) => {
        const { runVerify } = await import('./commands/verify.js');
        end(await runVerify(file, certificate, options, io, interrupt));
      }),
    );

  program
    .command('compare')
    .description('cases side by side, or every option by itself, each proved')
    .reading()
    .option('--case <name: wishes>', "a case: its name, then wishes, ';' between them", collect)
    .option('--frontier', 'the least work for every margin that can be had, and a plot')
    .option('--with-cuts', "with --frontier: the file's trims too, in quarters of their depth")
    .telling('stop then, with the best so far')
    .addHelpText(
      'after',
      `\nA case changes the bay as it stands: options, with what they need, and ranges\n` +
        `of the position. Without --case: the file's cases, or every option by itself.` +
        `\nStatus: 0 a case fits, 1 proved that none does, 2 bad input, 3 undecided.\n${example(
          `berth compare ${EXAMPLE} \\\n    --case "remote filter: oil filter=remote" \\\n` +
            `    --case "low valve, centred: steering valve=low; offset=0"`,
        )}`,
    )
    .action(heard<CompareOptions>(async () => (await import('./commands/compare.js')).runCompare));

  program
    .command('slide')
    .description('how the best margin changes as one coordinate moves, and what is in charge')
    .reading()
    .requiredOption('--along <coordinate>', 'setback, offset, height or pitch')
    .option('--from <place>', "where the slide begins (the least of the file's range)")
    .option('--to <place>', "where it ends (the most of the file's range)")
    .option('--steps <number>', 'points, both ends among them', '40')
    .option('--option <choice=option>', "hold a choice (the best answer's options)", collect)
    .option('--csv', 'print a line a point, for a spreadsheet')
    .telling('stop then, with the best so far')
    .addHelpText(
      'after',
      `\nStatus: 0 fits somewhere, 1 proved that it does not, 2 bad input, 3 undecided.\n${example(
        `berth slide ${EXAMPLE} --along offset --steps 20`,
      )}`,
    )
    .action(heard<SlideOptions>(async () => (await import('./commands/slide.js')).runSlide));

  program
    .command('gaps')
    .description('every rule measured at one position')
    .reading()
    .requiredOption('--at <position>', 'coordinates, those the file pins if you like; roll and yaw')
    .option('--option <choice=option>', 'take this option instead of the first', collect)
    .telling()
    .addHelpText(
      'after',
      `\nStatus: 0 fits, 1 does not fit, 2 bad input.\n${example(
        `berth gaps ${EXAMPLE} \\\n    --at "setback=23 1/2,offset=0,height=2,pitch=3"`,
      )}`,
    )
    .action(async (file: string, options: GapsOptions) => {
      const { runGaps } = await import('./commands/gaps.js');
      end(await runGaps(file, options, io));
    });

  program
    .command('driveline')
    .description('joint angles, shaft length, speed and ripple, at ride, bump and droop')
    .reading()
    .somewhere('where the engine is, roll and yaw too')
    .telling('stop the search for the best place then')
    .addHelpText(
      'after',
      `\nStatus: 0 works, 1 does not work, 2 bad input.\n${example(`berth driveline ${EXAMPLE}`)}`,
    )
    .action(
      heard<DrivelineOptions>(async () => (await import('./commands/driveline.js')).runDriveline),
    );

  program
    .command('mockup')
    .description('what to turn on the adjustable mounts, in an order that closes no gap')
    .reading()
    .somewhere('where the engine is to be')
    .telling('stop the search for the best place then')
    .addHelpText(
      'after',
      `\nStatus: 0 it can be set, 1 it cannot, 2 bad input, 3 no order found.\n${example(
        `berth mockup ${EXAMPLE}`,
      )}`,
    )
    .action(heard<MockupOptions>(async () => (await import('./commands/mockup.js')).runMockup));

  program
    .command('asbuilt')
    .description('where a taped engine really sits: go on, or set it again')
    .reading()
    .requiredOption('--measured <readings>', 'what the tape read, YAML or JSON')
    .somewhere('where the engine was meant to be')
    .telling('stop the search for the best place then')
    .addHelpText(
      'after',
      `\nStatus: 0 go on, 1 set it again, 2 bad input, 3 in doubt or undetermined.\n${example(
        `berth asbuilt ${EXAMPLE} --measured scenarios/taped/orchard-hauler.yaml`,
      )}`,
    )
    .action(heard<AsBuiltOptions>(async () => (await import('./commands/asbuilt.js')).runAsBuilt));

  program
    .command('mounts')
    .description('engine mounts to make: sizes, flat patterns, what they clear and carry')
    .reading()
    .somewhere('where the engine is')
    .option('-o, --output <folder>', 'write the flat patterns, SVG and DXF, at full size')
    .option('--force', 'write over files that are no patterns')
    .option('--all', 'print every gap, gusset and piece')
    .telling('stop the search for the best place then')
    .addHelpText(
      'after',
      `\nWith --at, choices stay as the bay stands unless --option says otherwise.` +
        `\nStatus: 0 clear, 1 not clear or cannot be made, 2 bad input.\n${example(
          `berth mounts ${EXAMPLE} --output patterns`,
        )}`,
    )
    .action(heard<MountsOptions>(async () => (await import('./commands/mounts.js')).runMounts));

  program
    .command('blockers')
    .description('why a wish cannot be had, and the least that makes it possible')
    .reading()
    .requiredOption('--want <wish>', "'offset=0', 'setback>=26', 'margin>=1/4', ...", collect)
    .option('--all', 'print every reason and every remedy')
    .telling('stop then, with what is known')
    .addHelpText(
      'after',
      `\nSeveral wishes go together, parted by ';' or each in a --want of its own; an` +
        `\noption too: 'oil filter=remote'. The other choices stay as the bay stands.` +
        `\nStatus: 0 it can be had, 1 proved not, 2 bad input, 3 undecided.\n${example(
          `berth blockers ${EXAMPLE} --want offset=0`,
        )}`,
    )
    .action(
      heard<BlockersOptions>(async () => (await import('./commands/blockers.js')).runBlockers),
    );

  program
    .command('trim')
    .description('the cheapest cuts that reach a wish, and what each depth gains')
    .reading()
    .option('--want <wish>', "as for blockers: 'offset=0', 'oil filter=remote', ...", collect)
    .option('--margin <length>', 'what every rule must leave (0)')
    .option('--with-options', 'let options change too, where that is less work')
    .telling('stop then, with what is known')
    .addHelpText(
      'after',
      `\nStatus: 0 a cut reaches it, or none is needed, 1 proved that none does, 2 bad` +
        `\ninput, 3 undecided.\n${example(`berth trim ${EXAMPLE} --want "oil filter=remote"`)}`,
    )
    .action(heard<TrimOptions>(async () => (await import('./commands/trim.js')).runTrim));

  program
    .command('sheet')
    .description('the answer, drawings and check list as one page to print')
    .reading()
    .option('-o, --output <page>', 'the page to write, HTML')
    .option('--svg <folder>', 'write the drawings: side.svg, top.svg and front.svg')
    .option('--paper <letter|a4>', "the paper to print on (the printer's)")
    .option('--cut <part=depth>', "carry out a trim of the file's", collect)
    .option('--force', 'write over files that are no sheet')
    .inUnits()
    .searching()
    .addHelpText(
      'after',
      `\nStatus: 0 fits, 1 proved not to fit, 2 bad input, 3 undecided.\n${example(
        `berth sheet ${EXAMPLE} -o sheet.html`,
      )}`,
    )
    .action(heard<SheetOptions>(async () => (await import('./commands/sheet.js')).runSheet));

  program
    .command('explore')
    .description('the bay on a page, to drag the engine in and see what is tight')
    .argument('<file>', 'scenario, YAML or JSON; read again whenever it changes')
    .option('--export <page>', 'write the page as one HTML file instead, for use without a network')
    .option('--port <number>', 'serve on this port; 0 takes any that is free')
    .plainly()
    .addHelpText(
      'after',
      `\nServes this machine alone, until Ctrl-C. Nothing is written but a case that the` +
        `\npage is asked to save. Status: 0 stopped or written, 2 bad input.\n${example(
          `berth explore ${EXAMPLE}`,
        )}`,
    )
    .action(async (file: string, options: ExploreOptions) => {
      const { runExplore } = await import('./commands/explore.js');
      end(await runExplore(file, options, io));
    });

  program
    .command('check')
    .description('every problem of a scenario file')
    .reading()
    .plainly()
    .addHelpText(
      'after',
      `\nStatus: 0 good, or warnings only; 2 bad.\n${example(`berth check ${EXAMPLE}`)}`,
    )
    .action(async (file: string, options: { plain?: boolean }) => {
      const { runCheck } = await import('./commands/check.js');
      end(await runCheck(file, options, io));
    });

  program
    .command('schema')
    .description('the JSON Schema of a scenario, for an editor')
    .addHelpText('after', example('berth schema > berth.schema.json'))
    .action(async () => {
      const { runSchema } = await import('./commands/schema.js');
      end(runSchema(io));
    });

  return program;
}

/** From when there is something to answer with, Ctrl-C is heard until the answer is out. */
async function interruptible(io: Io, work: (interrupt: Interrupt) => Promise<void>): Promise<void> {
  const interrupt = new Interrupt(io);
  try {
    await work(interrupt);
  } finally {
    interrupt.ignore();
  }
}

function example(command: string): string {
  return `\nExample:\n  ${command}`;
}

/** Commander's message on lines that repeat nothing a terminal would act on. */
function mistyped(text: string): string {
  return text
    .trim()
    .split('\n')
    .map((line) => fit(clean(line, SAFE), LONGEST_MESSAGE, SAFE))
    .join('\n');
}

function ended(error: unknown, io: Io): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : BAD_INPUT;
  if (error instanceof UserError) {
    io.err(problemText(error.problems, error.file, SAFE));
    if (error.problems.length > 1) io.err(`${problemCount(error.problems)}\n`);
    return BAD_INPUT;
  }
  const message = error instanceof Error ? error.message : String(error);
  io.err(`a fault in Berth itself: ${fit(clean(message, SAFE), LONGEST_MESSAGE, SAFE)}\n`);
  return FAULT;
}
