/** Numbers as they are typed for a campaign. */

/** @throws RangeError where it is no whole number above 0; nothing typed is nothing said. */
export function whole(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (Number.isSafeInteger(value) && value > 0) return value;
  throw new RangeError(`'${text}' is not a whole number above 0`);
}
