/** What a search maximises. */
export type Objective =
  /** The tightest margin, millimetres. */
  { readonly kind: 'margin' } | CoordinateObjective;

/** `sign` times a coordinate, every margin at least `keep`. */
export interface CoordinateObjective {
  readonly kind: 'coordinate';
  readonly coordinate: 0 | 1 | 2 | 3;
  readonly sign: 1 | -1;
  readonly keep: number;
}

export const MARGIN: Objective = { kind: 'margin' };
