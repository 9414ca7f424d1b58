/** A certificate as a file holds it: nothing in it is believed until it has this shape. */

import { z } from 'zod';
import type { Certificate, Tree } from '../certificate.js';
import { CERTIFICATE_FORMAT } from '../certificate.js';
import { MEASURES } from '../scenario.js';
import type { Measure } from '../scenario.js';

const real = z.number();
const index = z.number().int().min(0).max(1e6);
const point = z.tuple([real, real, real]);
const four = z.tuple([real, real, real, real]);
const pairOfIndexes = z.tuple([index, index]);
const text = z.string().max(1000);

const slides = z.array(point).length(4).nullable();
const pointPair = z.strictObject({
  points: z.tuple([point, point]),
  slides: z.tuple([slides, slides]).optional(),
});

const reason = z.strictObject({
  solids: pairOfIndexes,
  moment: z.strictObject({ turns: z.tuple([real, real]), rock: real, lift: real }).optional(),
  pairs: z.array(pointPair).max(8).optional(),
  corners: z.array(z.number().int().min(-1).max(7)).length(8).optional(),
  inner: z
    .strictObject({
      pairs: z.array(z.tuple([point, point])).max(1000),
      facets: z.array(z.tuple([index, index, index])).max(2000),
    })
    .optional(),
});

const row = z.union([
  z.strictObject({ pair: index, value: real, slopes: four, reasons: z.array(reason).max(1000) }),
  z.strictObject({ limit: index, value: real, slopes: four, scale: real }),
]);

const coordinate = z.union([z.literal(0), z.literal(1), z.literal(2), z.literal(3)]);

const tree: z.ZodType<Tree> = z.lazy(() =>
  z.union([
    z.strictObject({ split: coordinate, at: real, parts: z.tuple([tree, tree]) }),
    z.strictObject({ choice: index, options: z.array(z.tuple([index, tree])).max(1000) }),
    z.strictObject({ none: z.enum(['options', 'work']) }),
    z.strictObject({ rows: z.array(row).max(10_000), shares: z.array(real).max(10_000) }),
  ]),
) as z.ZodType<Tree>;

const place = z.strictObject({
  at: four,
  margin: real,
  parted: z.array(z.tuple([index, pairOfIndexes, point])),
});

const certificateSchema = z.strictObject({
  certificate: z.literal(CERTIFICATE_FORMAT),
  title: text,
  scenario: text,
  asked: z.strictObject({
    guaranteed: z.boolean(),
    from: four,
    to: four,
    allowed: z.array(z.array(index).max(1000)).max(1000),
  }),
  pairs: z.array(
    z.strictObject({
      parts: z.tuple([text, text]),
      measured: z.enum(MEASURES as [Measure, ...Measure[]]),
      out: text.optional(),
    }),
  ),
  answer: z.strictObject({ options: z.array(index).max(1000), place, setting: place }),
  claims: z
    .array(
      z.strictObject({
        about: z.enum(['all options', 'these options', 'less work']),
        most: real,
        tree,
      }),
    )
    .max(10),
  digest: text,
});

/**
 * Nested further than this, two for each cut, a tree is none of ours: a box halved so often has no width left.
 * Reading one of twice the depth would overflow the stack.
 */
const DEEPEST = 1000;

/**
 * A certificate from what JSON gave.
 * @returns the certificate, or where and how it is none.
 */
export function certificateFrom(
  raw: unknown,
): { readonly certificate: Certificate } | { readonly fault: string } {
  if (isDeeper(raw)) return { fault: 'it is nested too deep' };
  const read = certificateSchema.safeParse(raw);
  if (read.success) return { certificate: read.data as Certificate };
  const issue = read.error.issues[0];
  const where = issue?.path.slice(0, 4).map(String).join('.') ?? '';
  return { fault: `${where === '' ? 'at the top' : `at ${where}`} it is not as it should be` };
}

/** Looked at level by level, since what is too deep for the schema is too deep to call for. */
function isDeeper(raw: unknown): boolean {
  let level: unknown[] = [raw];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > DEEPEST) return true;
    const next: unknown[] = [];
    for (const one of level) {
      if (typeof one === 'object' && one !== null) for (const x of Object.values(one)) next.push(x);
    }
    level = next;
  }
  return false;
}
