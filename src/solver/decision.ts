/** A margin this close under what is asked still counts as reaching it: 1e-6 in, in millimetres. */
export const DECISION_SLACK = 25.4e-6;

/** Millimetres (radians of an angle, kilograms of a load) by which a limit may be missed and still count as met. */
export const LIMIT_SLACK = 1e-7;
