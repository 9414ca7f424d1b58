/** A margin this close under what is asked still counts as reaching it: 1e-6 in, in millimetres. */
export const DECISION_SLACK = 25.4e-6;
