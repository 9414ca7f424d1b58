/** A longer copy of an array, zeros behind. */
export function grown(array: Float64Array, length: number): Float64Array<ArrayBuffer> {
  const longer = new Float64Array(length);
  longer.set(array);
  return longer;
}
