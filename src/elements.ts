/** The custom elements. Importing this module registers them. */
export {};
