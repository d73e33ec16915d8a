/** By which the worked example is known, whatever has been changed in it since. */
export const EXAMPLE_NOTE = "The worked example, not anybody's kitchen.";
