/** Certificates as files: sealed with digests when written, read back and looked at. */

import { createHash } from 'node:crypto';
import { CERTIFICATE_FORMAT } from '../../model/certificate.js';
import type { Certificate } from '../../model/certificate.js';
import { certificateFrom } from '../../model/schema/certificate.js';
import type { Unsealed } from '../../solver/certifying/certify.js';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { mistake, UserError } from '../problems.js';

/** What a certificate of ours begins with. */
export const CERTIFICATE_MARK = `"certificate":${CERTIFICATE_FORMAT}`;
/** Bytes that a certificate may have. */
const MAX_CERTIFICATE_BYTES = 200_000_000;

/** SHA-256 of a text, as a certificate names it. */
export function digestOf(text: string): string {
  return `sha256 ${createHash('sha256').update(text).digest('hex')}`;
}

/** The text of a certificate, with the digests of the scenario's text and of itself. */
export function sealed(unsealed: Unsealed, scenarioText: string): string {
  const body = { ...unsealed, scenario: digestOf(scenarioText) };
  return `${JSON.stringify({ ...body, digest: digestOf(JSON.stringify(body)) })}\n`;
}

/** A certificate read, and whether its own digest is still that of what it holds. */
export interface Read {
  readonly certificate: Certificate;
  readonly isAsWritten: boolean;
  readonly bytes: number;
}

/**
 * Reads a certificate.
 * @throws UserError for a file that cannot be read or is none.
 */
export async function readCertificate(path: string, io: Io): Promise<Read> {
  const { text } = await readInput(path, io, MAX_CERTIFICATE_BYTES);
  const refuse = (message: string): UserError =>
    new UserError(
      mistake(message, { expected: 'a certificate as berth place writes it' }).problems,
      path,
    );
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    throw refuse('this is no JSON');
  }
  const found = certificateFrom(raw);
  if ('fault' in found) throw refuse(`this is no certificate: ${found.fault}`);
  // What was read is digested as it stands, so that a key or a digit more is told too.
  const { digest, ...body } = raw as Certificate;
  const isAsWritten = digest === digestOf(JSON.stringify(body));
  return { certificate: found.certificate, isAsWritten, bytes: Buffer.byteLength(text) };
}
