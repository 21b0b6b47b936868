/** Of the program, as package.json has it: every statement says by which it was computed. */
export const SOFTWARE_VERSION = "0.1.0";
