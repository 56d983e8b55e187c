/** Whether this is the version of V8 that flags were tried on; another may not know them, and would say so. */
export const isTriedEngine = (): boolean => /^11\./.test(process.versions.v8);
