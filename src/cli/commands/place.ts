/** `berth place`: where the engine goes. */

import { notDrawn } from '../../model/notdrawn.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, Range, Scenario } from '../../model/scenario.js';
import type { Units } from '../../model/text/tape.js';
import { hasErrors, worstCase } from '../../model/errors/worst.js';
import { measureAgain } from '../../solver/measuring/again.js';
import { bothWays, heldTo } from '../../solver/measuring/guaranteed.js';
import { hoistTo } from '../../solver/measuring/hoist.js';
import { place } from '../../solver/place.js';
import { certify } from '../../solver/certifying/certify.js';
import type { Uncertified, Unsealed } from '../../solver/certifying/certify.js';
import type { Aim, PlaceAnswer, Standing } from '../../solver/answer.js';
import type { PlaceRequest } from '../../solver/asked.js';
import { verify } from '../../verify/verify.js';
import type { Certificate } from '../../model/certificate.js';
import { CERTIFICATE_MARK, sealed } from '../writing/sealed.js';
import { putFile, refuseOther } from '../writing/put.js';
import type { Again } from '../../solver/measuring/again.js';
import type { Unruled } from '../../solver/measuring/unruled.js';
import { unruledAt } from '../../solver/measuring/unruled.js';
import { aimAsked, lengthAsked } from '../asking/amounts-asked.js';
import { domainsAsked, optionNames } from '../asking/options-asked.js';
import { pinsAsked, unitsAsked } from '../asking/asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { placeJson } from '../json/answer.js';
import { loadScenario } from '../asking/load.js';
import { lookFor, screenOf } from '../look.js';
import { held } from '../asking/opened.js';
import { mistake, problemLine } from '../problems.js';
import { drive } from '../running/progress.js';
import type { Showing } from '../running/progress.js';
import { placeReport } from '../report/answer.js';
import { verdict } from '../report/headline.js';
import { print } from '../report/lines.js';
import type { Asked } from '../report/next.js';
import { shown } from '../report/shown.js';
import type { Look } from '../../words/text.js';
import { jsonText, writtenText } from '../writing/told.js';
import { STATUS } from '../status.js';
import { DEFAULT_TOLERANCE } from '../asking/tolerance.js';

/** As commander gives them: all text. */
export interface PlaceOptions {
  readonly json?: boolean;
  readonly units?: string;
  readonly tolerance?: string;
  readonly timeLimit?: string;
  readonly memoryLimit?: string;
  readonly pin?: readonly string[];
  readonly option?: readonly string[];
  readonly aim: string;
  readonly guaranteed?: boolean;
  readonly keep?: string;
  readonly all?: boolean;
  readonly plain?: boolean;
  readonly certificate?: string;
  readonly force?: boolean;
}

const NO_ERRORS =
  '--guaranteed needs a measuring error in the file: a length such as 19 1/4 +- 1/16, or `measuring error`';

/** A search that was asked for and is done. */
export interface Placed {
  readonly answer: PlaceAnswer;
  readonly asked: Asked;
  readonly scenario: Scenario;
  readonly units: Units;
  readonly tolerance: number;
  readonly unruled: Unruled;
  readonly again: readonly Again[];
  /** What was searched, and what it gave before anything else was measured. */
  readonly searched: {
    readonly scenario: Scenario;
    readonly request: PlaceRequest;
    readonly found: PlaceAnswer;
    readonly showing: Showing;
  };
}

/** What the options of a search say, checked before any file is read. */
type Typed = Pick<PlaceOptions, 'units' | 'tolerance' | 'pin' | 'option'> & {
  /** Seconds: the limit that it is held to. */
  readonly limit: number | undefined;
  readonly aim: Aim;
  readonly keep?: string | undefined;
  readonly guaranteed?: boolean | undefined;
};

/**
 * Searches and measures what a report tells of the answer.
 * @param held choices that are decided already, by index.
 * @throws UserError for anything wrong with the options.
 */
export async function placed(
  scenario: Scenario,
  typed: Typed,
  io: Io,
  interrupt: Interrupt,
  look: Look,
  held: ReadonlyMap<number, number> = new Map(),
): Promise<Placed> {
  const { limit } = typed;
  const names = optionNames(typed.option ?? []);
  const units = unitsAsked(typed.units, scenario);
  const pins = pinsAsked(typed.pin ?? [], units, scenario);
  const keep = typed.keep === undefined ? 0 : lengthAsked('--keep', typed.keep, units, '0 or more');
  const tolerance =
    typed.tolerance === undefined
      ? DEFAULT_TOLERANCE
      : lengthAsked('--tolerance', typed.tolerance, units, 'over 0');
  const isWorst = typed.guaranteed === true;
  if (isWorst && !hasErrors(scenario)) throw mistake(NO_ERRORS);
  // Its worst case is that of the positions searched.
  const within = heldTo(scenario, ranges(pins));
  const open = domainsAsked(scenario, names);
  const searched = isWorst ? worstCase(within) : scenario;
  const request: PlaceRequest = {
    aim: typed.aim,
    keep,
    tolerance,
    units,
    pins: ranges(pins),
    allowed: open.map((domain, c) => (held.has(c) ? [held.get(c)!] : domain)),
  };
  const showing = { units, look, ...(limit === undefined ? {} : { limit }) };
  const found = await drive(place(searched, request), io, interrupt, showing);
  const answer = hasErrors(scenario) ? bothWays(found, within, isWorst ? 'worst' : 'drawn') : found;
  const { options: set } = answer.main;
  const { standing } = shown(answer.main);
  return {
    answer,
    asked: { pins, options: names, keep, ...(limit === undefined ? {} : { timeLimit: limit }) },
    scenario,
    units,
    tolerance,
    unruled: unruledAt(scenario, set, standing),
    again: hasErrors(scenario) ? measureAgain(within, set, standing.position) : [],
    searched: { scenario: searched, request, found, showing },
  };
}

/**
 * Reads the file, searches, prints the answer and returns the exit status.
 * @throws UserError for anything wrong with the file or the options.
 */
export async function runPlace(
  file: string,
  options: PlaceOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  const aim = aimAsked(options.aim);
  if (aim === 'margin' && options.keep !== undefined) {
    throw mistake('--keep needs --aim centre, low or back: the roomiest place keeps all there is');
  }
  const limit = held(interrupt, options);
  optionNames(options.option ?? []);
  const { scenario, text, warnings } = await loadScenario(file, io);
  if (options.certificate !== undefined) {
    const ours = { mark: CERTIFICATE_MARK, what: 'certificate' };
    await refuseOther(options.certificate, file, ours, options.force);
  }
  const look = lookFor(io, options.plain === true);
  const done = await placed(scenario, { ...options, aim, limit }, io, interrupt, look);
  const { answer, asked, units, tolerance, unruled, again } = done;
  // Before the answer is told: until then Ctrl-C and the limits are heard.
  const proof =
    options.certificate === undefined
      ? undefined
      : checked(
          await drive(proofOf(done, options), io, interrupt, done.searched.showing),
          text,
          scenario,
          () => interrupt.word() === 'go',
        );
  const { options: set } = answer.main;
  const said = warnings.map((warning) => problemLine(warning, file, look));
  const wayTo = ({ position }: Standing) => hoistTo(scenario, set, position);
  if (options.json === true) {
    for (const line of said) io.err(`warning: ${line}\n`);
    const numbers = { scenario, units, tolerance };
    const hoist = { optimum: wayTo(answer.main.optimum), setting: wayTo(answer.main.setting) };
    const told = placeJson(answer, notDrawn(scenario), unruled, numbers, again, hoist);
    io.out(jsonText(told));
  } else {
    const hoist = wayTo(shown(answer.main).standing);
    const report = {
      answer,
      asked,
      notDrawn: notDrawn(scenario),
      warnings: said,
      all: options.all === true,
      unruled,
      again,
      ...(hoist && { hoist }),
      ...(io.outIsTerminal && options.all !== true ? { screen: screenOf(io) } : {}),
    };
    io.out(print(placeReport(report, { scenario, units, look }), look));
  }
  if (options.certificate !== undefined && proof !== undefined) {
    if (typeof proof !== 'string') {
      io.err(`No certificate: ${proof.why}.\n`);
      return STATUS.undecided;
    }
    await putFile(options.certificate, proof);
    if (options.json !== true) io.out(writtenText(options.certificate, look));
  }
  return STATUS[verdict(answer)];
}

function proofOf({ searched }: Placed, { guaranteed = false }: PlaceOptions) {
  return certify(searched.scenario, searched.request, searched.found, guaranteed);
}

/** The text of a proof, checked as it will be read, so that none is written which does not hold; or why not. */
function checked(
  proof: Unsealed | Uncertified,
  text: string,
  scenario: Scenario,
  keepOn: () => boolean,
): string | Uncertified {
  if ('why' in proof) return proof;
  const certificate = sealed(proof, text);
  const found = verify(scenario, JSON.parse(certificate) as Certificate, keepOn);
  if (!('fault' in found)) return certificate;
  return { why: `what was written down is not yet a proof (${found.fault})` };
}

function ranges(pins: Partial<Record<Coordinate, number>>): Partial<Record<Coordinate, Range>> {
  const pinned: Partial<Record<Coordinate, Range>> = {};
  for (const coordinate of COORDINATES) {
    const value = pins[coordinate];
    if (value !== undefined) pinned[coordinate] = { min: value, max: value };
  }
  return pinned;
}
