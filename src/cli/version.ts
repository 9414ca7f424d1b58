/** The version that `--version` prints; a test holds it to the package's. */
export const VERSION = '0.1.0';
