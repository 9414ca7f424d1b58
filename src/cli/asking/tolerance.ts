/** How close a proof must come unless something else is asked: 1/64 in, in millimetres. */
export const DEFAULT_TOLERANCE = 25.4 / 64;
