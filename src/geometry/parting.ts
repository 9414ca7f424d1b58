/** What is known of a parting move while its shortest is looked for. */

/** Best separation over the directions tried; `lower` and n are kept if none betters them. */
export interface Overlap {
  lower: number;
  upper: number;
  nx: number;
  ny: number;
  nz: number;
}

/** Shared record, filled by the caller with the best direction known and bettered here. */
export const overlap: Overlap = { lower: -Infinity, upper: Infinity, nx: 1, ny: 0, nz: 0 };
