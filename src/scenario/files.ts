/** Files that a scenario names: this folder reads none itself. */

/**
 * Gives a file's text by the name the scenario uses, or says why it can't.
 *
 * @param what what the file is for: a logic table or a sensor's profile
 */
export type ReadFile = (file: string, what: 'table' | 'profile') => string | { readonly error: string };

export const NO_FILES = { error: 'files cannot be read here' } as const;
